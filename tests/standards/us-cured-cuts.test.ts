import { describe, expect, it } from 'vitest';
import type { Process } from '../../src/batch/product.ts';
import { inForceOn } from '../../src/rules/limit.ts';
import { CURED_CUT_STANDARDS } from '../../src/standards/us/cured-cuts.ts';
import { US } from '../../src/standards/us/us.ts';
import { COOKED, checkOne, limitOf, standardOf, type Weighed } from '../helpers/materials.ts';

const classes = (wanted: RegExp) =>
  CURED_CUT_STANDARDS.map(({ productClass }) => productClass).filter((name) => wanted.test(name));
const has = (productClass: string, id: string) =>
  standardOf(productClass).limits.some((limit) => limit.id === id);
const holding = (id: string) => classes(/./).filter((productClass) => has(productClass, id));
const laboratory = (productClass: string) => (standardOf(productClass).laboratory ?? []).map(({ id }) => id);

/** The ids of the limits that a batch breaks. */
const broken = (productClass: string, lines: readonly Weighed[], process: Process) =>
  standardOf(productClass)
    .limits.filter((limit) => !checkOne(limit, lines, process).holds)
    .map(({ id }) => id);

const BACON = classes(/^bacon/);
const COUNTRY = classes(/^country/);
const CORNED = classes(/^(?:corned|cured-beef)/);
const CHOPPED = classes(/^(?:chopped|ham-patties)/);
const CURED_PORK = classes(/^(?:ham|uncooked|cured-pork)/).filter((name) => !CHOPPED.includes(name));

describe('the cured and cooked cuts', () => {
  it('are these classes', () => {
    expect(classes(/./)).toEqual([
      'ham',
      'ham-with-natural-juices',
      'ham-water-added',
      'ham-and-water-product',
      'cured-pork-loin',
      'cured-pork-loin-with-natural-juices',
      'cured-pork-loin-water-added',
      'cured-pork-loin-and-water-product',
      'cured-pork-shoulder',
      'cured-pork-shoulder-with-natural-juices',
      'cured-pork-shoulder-water-added',
      'cured-pork-shoulder-and-water-product',
      'uncooked-ham',
      'uncooked-ham-and-water-product',
      'uncooked-cured-pork-loin',
      'uncooked-cured-pork-loin-and-water-product',
      'uncooked-cured-pork-shoulder',
      'uncooked-cured-pork-shoulder-and-water-product',
      'chopped-ham',
      'chopped-ham-with-natural-juices',
      'chopped-ham-water-added',
      'chopped-ham-and-water-product',
      'ham-patties',
      'ham-patties-with-natural-juices',
      'ham-patties-water-added',
      'ham-patties-and-water-product',
      'bacon-pumped',
      'bacon-pumped-100',
      'bacon-pumped-with-starter',
      'bacon-immersion',
      'bacon-dry-cured',
      'country-ham',
      'country-ham-without-nitrite',
      'country-pork-shoulder',
      'country-pork-shoulder-without-nitrite',
      'corned-beef',
      'corned-beef-cooked',
      'corned-beef-brisket',
      'corned-beef-brisket-cooked',
      'corned-beef-round',
      'corned-beef-round-cooked',
      'cured-beef-tongue',
      'roast-beef-parboiled',
      'barbecued-meat',
    ]);
  });

  it('are all among the standards of the United States', () => {
    const all = US.standards.map(({ productClass }) => productClass);
    expect(CURED_CUT_STANDARDS.filter(({ productClass }) => !all.includes(productClass))).toEqual([]);
  });

  it('hold their limits from the first day that is known on, without an end', () => {
    for (const { limits, laboratory: found = [] } of CURED_CUT_STANDARDS) {
      expect(inForceOn(limits, US.knownFrom)).toEqual(limits);
      expect(inForceOn(limits, '2099-12-31')).toEqual(limits);
      expect(inForceOn(found, US.knownFrom)).toEqual(found);
    }
  });

  it('say whole sentences of what a laboratory or the plant shows, one rule an id', () => {
    const all = CURED_CUT_STANDARDS.flatMap(({ laboratory: found = [] }) => found);
    expect(all.filter(({ says }) => !/^[A-Z0-9].*[^.\s]\.$/.test(says))).toEqual([]);
    for (const rule of all) expect(all.find(({ id }) => id === rule.id)).toBe(rule);
  });

  it('are named, and never with lean and fat', () => {
    for (const { naming } of CURED_CUT_STANDARDS) {
      expect(naming.name).toMatch(/\S/);
      expect(naming.leanPair).toBe(false);
    }
  });

  // 9 CFR 319.6(d) names all of them but 319.105, which allows it, and bacon, which is pork belly.
  it('take mechanically separated meat as chopped ham alone', () => {
    for (const productClass of classes(/./)) {
      const refused = BACON.includes(productClass)
        ? 'us-319.107-no-mechanically-separated'
        : 'us-319.6d-no-mechanically-separated-cuts';
      expect(has(productClass, refused), productClass).toBe(!CHOPPED.includes(productClass));
    }
    expect(holding('us-319.6-mechanically-separated-share')).toEqual(CHOPPED);
  });

  it('are of pork or of beef, barbecue of any meat but poultry', () => {
    for (const { productClass, limits } of CURED_CUT_STANDARDS) {
      const species = limits.filter(({ id }) => /-(?:beef-only|pork-only|no-poultry)$/.test(id));
      expect(species, productClass).toHaveLength(1);
    }
  });
});

describe('nitrite and nitrate of cured cuts', () => {
  const ONE_OF = [
    'us-424.21c-nitrite-pickle',
    'us-424.21c-nitrite-comminuted',
    'us-424.21c-nitrite-dry-cure',
    'us-424.22b1-nitrite-pumped-bacon',
    'us-424.22b1iia-nitrite-pumped-bacon',
    'us-424.22b1iib-nitrite-most',
    'us-424.22b2-nitrite-immersion-bacon',
    'us-424.22b3-nitrite-dry-cured-bacon',
    'us-319.106c4-no-nitrite',
    'us-not-cured',
  ];

  it.each(classes(/./))('have just one most in every class: %s', (productClass) => {
    expect(ONE_OF.filter((id) => has(productClass, id))).toHaveLength(1);
  });

  it('are the figures of pickle, of chopped meat and of a dry cure, each where it belongs', () => {
    expect(holding('us-424.21c-nitrite-pickle')).toEqual([...CURED_PORK, ...CORNED]);
    expect(holding('us-424.21c-nitrate-pickle')).toEqual([...CURED_PORK, ...CORNED]);
    expect(holding('us-424.21c-nitrite-comminuted')).toEqual(CHOPPED);
    const cured = COUNTRY.filter((name) => !name.endsWith('without-nitrite'));
    expect(holding('us-424.21c-nitrite-dry-cure')).toEqual(cured);
    expect(holding('us-424.21c-nitrate-dry-cure')).toEqual(cured);
    expect(holding('us-not-cured')).toEqual(['roast-beef-parboiled', 'barbecued-meat']);
  });

  it('leave nitrate out of all bacon', () => {
    expect(BACON).toHaveLength(5);
    expect(holding('us-424.21c-no-nitrate-bacon')).toEqual(BACON);
  });

  it('are looked for in the finished product of all that is cured but bacon', () => {
    const found = classes(/./).filter((name) => laboratory(name).includes('us-424.21c-nitrite-found-cuts'));
    const uncured = [...BACON, ...COUNTRY.filter((name) => name.endsWith('without-nitrite'))];
    expect(found).toEqual(
      [...CURED_PORK, ...CHOPPED, ...COUNTRY, ...CORNED].filter((n) => !uncured.includes(n)),
    );
  });

  it('say of a pickle what its gallon must weigh', () => {
    for (const id of ['us-424.21c-nitrite-pickle', 'us-424.21c-nitrate-pickle']) {
      expect(limitOf(id)).toMatchObject({ read: 'secondary' });
      expect(limitOf(id).note).toMatch(/10 lb a gallon.*green weight/);
    }
  });
});

describe('cured pork by its protein', () => {
  const figure = (productClass: string) =>
    standardOf(productClass)
      .limits.filter(({ id }) => id.endsWith('-pff'))
      .map(({ bound, sense }) => [sense, bound]);

  it.each([
    ['ham', [20.5, 18.5, 17]],
    ['cured-pork-loin', [20.5, 18.5, 17]],
    ['cured-pork-shoulder', [20, 18, 16.5]],
    ['chopped-ham', [19.5, 17.5, 16]],
    ['ham-patties', [19.5, 17.5, 16]],
  ] as const)('has a least figure for each name and none for water product: %s', (name, percents) => {
    const suffixes = ['', '-with-natural-juices', '-water-added'];
    expect(suffixes.map((suffix) => figure(`${name}${suffix}`))).toEqual(
      percents.map((percent) => [['min', percent / 100]]),
    );
    expect(figure(`${name}-and-water-product`)).toEqual([]);
  });

  it('has one figure for uncooked product', () => {
    expect(figure('uncooked-ham')).toEqual([['min', 0.18]]);
    expect(figure('uncooked-cured-pork-loin')).toEqual([['min', 0.18]]);
    expect(figure('uncooked-cured-pork-shoulder')).toEqual([['min', 0.175]]);
    expect(classes(/^uncooked.*(?:juices|added)$/)).toEqual([]);
  });

  it('names water product with the percent of what was added and no least figure', () => {
    for (const productClass of classes(/-and-water-product$/)) {
      const { naming, says } = standardOf(productClass);
      expect(naming.name).toMatch(/ and Water Product - X% of Weight is Added Ingredients$/);
      expect(says).toMatch(/PFF below \d/);
    }
  });

  it('is proven on samples wherever there is a figure', () => {
    for (const productClass of [...CURED_PORK, ...CHOPPED]) {
      expect(laboratory(productClass).includes('us-318.19-pff-samples'), productClass).toBe(
        figure(productClass).length === 1,
      );
    }
    expect(limitOf('us-319.104-ham-or-loin-pff').note).toMatch(/unrounded.*318\.19/);
  });

  it('lets binders into ham with natural juices, ham water added and ham and water product alone', () => {
    const allowed = ['ham-with-natural-juices', 'ham-water-added', 'ham-and-water-product'];
    expect(holding('us-424.21c-carrageenan-ham')).toEqual(allowed);
    expect(holding('us-424.21c-modified-starch-ham')).toEqual(allowed.slice(0, 2));
    expect(holding('us-424.21c-modified-starch-water-product')).toEqual(allowed.slice(2));
    for (const productClass of [...CURED_PORK, ...CHOPPED]) {
      const may = allowed.includes(productClass);
      const refused = has(productClass, 'us-319.104d-no-binder') || has(productClass, 'us-319.105-no-binder');
      expect(refused, productClass).toBe(!may);
      expect(laboratory(productClass).includes('us-319.104d-one-binder'), productClass).toBe(may);
    }
  });

  it('limits the fat of ham patties alone', () => {
    expect(holding('us-319.105d-fat')).toEqual(classes(/^ham-patties/));
  });

  it('passes a ham of meat, pickle and what the smokehouse takes', () => {
    const lines: Weighed[] = [
      ['pork-sinewy', '100'],
      ['water', '20'],
      ['salt', '2.5'],
      ['cure-6.25', '0.25'],
      ['sodium-erythorbate', '0.05'],
      ['sodium-tripolyphosphate', '0.4'],
    ];
    expect(broken('ham', lines, { ...COOKED, yieldFraction: 0.84 })).toEqual([]);
    expect(broken('ham', lines, { ...COOKED, yieldFraction: 0.95 })).toEqual(['us-319.104-ham-or-loin-pff']);
    expect(broken('ham-and-water-product', lines, COOKED)).toEqual([]);
  });
});

describe('bacon', () => {
  const belly = (...more: Weighed[]): Weighed[] => [
    ['pork', '1000'],
    ['water', '100'],
    ['salt', '15'],
    ...more,
  ];
  const smoked = { ...COOKED, yieldFraction: 0.88 };
  const ASCORBATE: Weighed = ['sodium-erythorbate', '0.55'];

  it('takes 120 ppm of nitrite and 550 ppm of erythorbate when pumped, and neither more nor less', () => {
    const nitrite = (kg: string): Weighed => ['sodium-nitrite', kg];
    const id = 'us-424.22b1-nitrite-pumped-bacon';
    expect(broken('bacon-pumped', belly(nitrite('0.12'), ASCORBATE), smoked)).toEqual([]);
    expect(broken('bacon-pumped', belly(nitrite('0.1176'), ASCORBATE), smoked)).toEqual([]);
    expect(broken('bacon-pumped', belly(nitrite('0.117'), ASCORBATE), smoked)).toEqual([id]);
    expect(broken('bacon-pumped', belly(nitrite('0.123'), ASCORBATE), smoked)).toEqual([id]);
    expect(broken('bacon-pumped', belly(ASCORBATE), smoked)).toEqual([id]);
    expect(broken('bacon-pumped', belly(nitrite('0.12')), smoked)).toEqual([
      'us-424.22b1-ascorbate-pumped-bacon',
    ]);
  });

  it('keeps within 2 % either way, which the limits own up to be no figure of the rule', () => {
    const targets = CURED_CUT_STANDARDS.flatMap(({ limits }) =>
      limits.filter(({ sense }) => sense === 'target'),
    );
    expect([...new Set(targets.map(({ id }) => id))]).toEqual([
      'us-424.22b1-nitrite-pumped-bacon',
      'us-424.22b1-ascorbate-pumped-bacon',
      'us-424.22b1iia-nitrite-pumped-bacon',
    ]);
    for (const { within, note } of targets) {
      expect(within).toBe(0.02);
      expect(note).toMatch(/no tolerance.*reading of these rules/);
    }
  });

  it('has 550 ppm of erythorbate in every pumped option and the maximum of other cuts elsewhere', () => {
    const pumped = classes(/^bacon-pumped/);
    expect(holding('us-424.22b1-ascorbate-pumped-bacon')).toEqual(pumped);
    for (const productClass of BACON) {
      expect(has(productClass, 'us-424.21c-sodium-ascorbate-cuts'), productClass).toBe(
        !pumped.includes(productClass),
      );
    }
  });

  it('takes 600 ppm of the monohydrate for 550 ppm of erythorbate', () => {
    const hydrate = (kg: string): Weighed[] =>
      belly(['sodium-nitrite', '0.12'], ['sodium-erythorbate-hydrate', kg]);
    expect(broken('bacon-pumped', hydrate('0.6'), smoked)).toEqual([]);
    expect(broken('bacon-pumped', hydrate('0.55'), smoked)).toEqual(['us-424.22b1-ascorbate-pumped-bacon']);
  });

  it('takes a mix of both nitrites, each by its own figure', () => {
    const mixed = belly(['sodium-nitrite', '0.06'], ['potassium-nitrite', '0.074'], ASCORBATE);
    expect(broken('bacon-pumped', mixed, smoked)).toEqual([]);
  });

  it('with a starter stays between 40 and 80 ppm and brings sugar', () => {
    const started = (nitrite: string, sugar: string) =>
      broken(
        'bacon-pumped-with-starter',
        belly(['sodium-nitrite', nitrite], ['sugar', sugar], ASCORBATE),
        smoked,
      );
    expect(started('0.06', '8')).toEqual([]);
    expect(started('0.0399', '8')).toEqual(['us-424.22b1iib-nitrite-least']);
    expect(started('0.0801', '8')).toEqual(['us-424.22b1iib-nitrite-most']);
    expect(started('0.06', '7')).toEqual(['us-424.22b1iib-sugar']);
    expect(laboratory('bacon-pumped-with-starter')).toContain('us-424.22b1iib-starter');
  });

  it('has a maximum alone when immersed or dry cured', () => {
    for (const [productClass, most, over] of [
      ['bacon-immersion', '0.12', '0.1201'],
      ['bacon-dry-cured', '0.2', '0.2001'],
    ] as const) {
      expect(broken(productClass, belly(['sodium-nitrite', most]), smoked)).toEqual([]);
      expect(broken(productClass, belly(), smoked)).toEqual([]);
      expect(broken(productClass, belly(['sodium-nitrite', over]), smoked)).toHaveLength(1);
    }
  });

  it('weighs no more than its bellies', () => {
    expect(holding('us-319.107-weight')).toEqual(BACON);
    const lines = belly(['sodium-nitrite', '0.12'], ASCORBATE);
    expect(broken('bacon-pumped', lines, COOKED)).toEqual(['us-319.107-weight']);
  });
});

describe('country ham and shoulder', () => {
  it('lose 18 % of their weight, take salt and no pickle', () => {
    for (const id of ['us-319.106c7-weight', 'us-319.106a-salt', 'us-319.106a-no-pickle']) {
      expect(holding(id), id).toEqual(COUNTRY);
    }
    for (const productClass of COUNTRY) expect(standardOf(productClass).cooking).toEqual(['dried']);
  });

  it('are tested for salt with nitrite and for brine or water activity without', () => {
    for (const productClass of COUNTRY) {
      const without = productClass.endsWith('without-nitrite');
      expect(laboratory(productClass).includes('us-319.106c3-internal-salt'), productClass).toBe(!without);
      expect(laboratory(productClass).includes('us-319.106c4-brine-or-water-activity')).toBe(without);
    }
  });

  it('keep no days or degrees that are not in effect', () => {
    const said = COUNTRY.flatMap((name) => [
      ...standardOf(name).limits,
      ...(standardOf(name).laboratory ?? []),
    ]);
    expect(said.filter(({ says }) => /\bdays\b|degrees/.test(says))).toEqual([]);
  });
});

describe('corned beef', () => {
  it('may gain 20 % as brisket, 10 % otherwise, and nothing cooked', () => {
    const most = (productClass: string) =>
      standardOf(productClass)
        .limits.filter(({ id }) => id.endsWith('-weight'))
        .map(({ bound }) => bound);
    expect(CORNED.map((name) => [name, ...most(name)])).toEqual([
      ['corned-beef', 1.1],
      ['corned-beef-cooked', 1],
      ['corned-beef-brisket', 1.2],
      ['corned-beef-brisket-cooked', 1],
      ['corned-beef-round', 1.1],
      ['corned-beef-round-cooked', 1],
      ['cured-beef-tongue', 1.1],
    ]);
  });

  it('takes cheek, head and heart meat as corned beef alone', () => {
    expect(holding('us-319.100-cheek-head-and-heart')).toEqual(['corned-beef', 'corned-beef-cooked']);
    expect(holding('us-319.81-cheek-head-and-heart')).toEqual(['roast-beef-parboiled']);
  });
});
