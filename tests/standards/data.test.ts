import { fileURLToPath } from 'node:url';
import { isDeepStrictEqual } from 'node:util';
import { describe, expect, it } from 'vitest';
import { inForceOn, type Limit } from '../../src/rules/limit.ts';
import { RULE_SETS } from '../../src/standards/all.ts';
import { CURED_CUT_STANDARDS } from '../../src/standards/us/cured-cuts.ts';
import { US } from '../../src/standards/us/us.ts';
import { loadMaterials } from '../../src/tables/materials.ts';
import { ALL_LIMITS, ALL_STANDARDS, limitOf, standardOf } from '../helpers/materials.ts';

const DAY = /^\d{4}-\d{2}-\d{2}$/;
const offenders = (wrong: (limit: Limit) => boolean) =>
  ALL_LIMITS.filter(({ limit }) => wrong(limit)).map(
    ({ standard, limit }) => `${standard.productClass}: ${limit.id}`,
  );

/** Ground product, sausage, loaves and poultry; cured and cooked cuts have a test of their own. */
const CURED_CUTS = new Set(CURED_CUT_STANDARDS.map(({ productClass }) => productClass));
const STANDARDS = US.standards.filter(({ productClass }) => !CURED_CUTS.has(productClass));

/** Rules that were entered without a text at hand; every other one must have been read. */
const FROM_MEMORY = [
  'us-319.15-no-heart-or-tongue',
  'us-319.160-no-byproducts',
  // The rule on the skin was read, its table was missing in every copy.
  'us-381.117d-chicken-skin',
  'us-381.117d-poultry-skin',
  'us-381.117d-turkey-skin',
  // Ground meat other than beef has no section: labeling policy, not read.
  'us-ground-meat-fat',
  'us-ground-meat-lamb-only',
  'us-ground-meat-no-added-water',
  'us-ground-meat-no-antimicrobial',
  'us-ground-meat-no-binder',
  'us-ground-meat-no-byproducts',
  'us-ground-meat-no-heart-or-tongue',
  'us-ground-meat-no-mechanically-separated',
  'us-ground-meat-no-phosphate',
  'us-ground-meat-pork-only',
  'us-ground-meat-seasoning-only',
  'us-ground-meat-veal-only',
  'us-mpr-pepperoni',
  // The food regulation that keeps sulfites out of meat was not read.
  'us-no-sulfite',
];

/** Rules of which a part was read only in another text than the rule itself. */
const SECONDARY = [
  // The figure follows from a memo on the inspection legend, read on a page that quotes it.
  'us-319.140-poultry',
  // The text before 1988 in a state's copy of it.
  'us-319.180a-added-water-1988',
  'us-319.181-binders',
  // How soy protein counts is in an earlier text of 9 CFR 319.140 only.
  'us-424.21c-binders',
  // The ounces were read in the rule, the rounded ppm in texts that quote inspectors' material.
  'us-424.21c-nitrate-comminuted',
  'us-424.21c-nitrite-comminuted',
  'us-farmer-summer-sausage-no-extender',
  // The other half of the memo on the inspection legend.
  'us-memo-075-meat',
  // Ratios of labeling policy, read in texts that quote it.
  'us-mpr-dry-sausage',
  'us-mpr-farmer-summer-sausage',
  'us-mpr-genoa-salami',
  'us-mpr-jerky',
  'us-mpr-semi-dry-sausage',
  'us-mpr-thuringer',
  // Written for Italian sausage; the rest follows from what the other standards do not name.
  'us-not-cured',
];

const readAs = (read: Limit['read']) =>
  [
    ...new Set(
      STANDARDS.flatMap(({ limits }) => limits)
        .filter((limit) => limit.read === read)
        .map(({ id }) => id),
    ),
  ].sort();

describe('the rule sets', () => {
  it('are those of six jurisdictions', () => {
    expect(RULE_SETS.map(({ jurisdiction }) => jurisdiction)).toEqual([
      'us',
      'eu',
      'gb',
      'ca',
      'codex',
      'anz',
    ]);
  });

  it('hold each class of product once, and these classes', () => {
    expect(STANDARDS.map(({ productClass }) => productClass)).toEqual([
      'ground-beef',
      'hamburger',
      'beef-patties',
      'fabricated-steak',
      'ground-pork',
      'ground-veal',
      'ground-lamb',
      'fresh-pork-sausage',
      'fresh-beef-sausage',
      'breakfast-sausage',
      'whole-hog-sausage',
      'italian-sausage',
      'uncooked-sausage',
      'smoked-pork-sausage',
      'frankfurter',
      'frankfurter-with-byproducts',
      'cheesefurter',
      'cooked-sausage',
      'braunschweiger',
      'liver-sausage',
      'luncheon-meat',
      'meat-loaf',
      'scrapple',
      'bockwurst',
      'chili-con-carne',
      'chili-con-carne-with-beans',
      'dry-sausage',
      'pepperoni',
      'genoa-salami',
      'semi-dry-sausage',
      'thuringer',
      'farmer-summer-sausage',
      'jerky',
      'ground-chicken',
      'chicken-burgers',
      'chicken-patties',
      'ground-turkey',
      'turkey-burgers',
      'turkey-patties',
      'poultry-sausage',
      'cooked-poultry-sausage',
    ]);
    expect(new Set(US.standards.map(({ productClass }) => productClass)).size).toBe(US.standards.length);
  });

  it('say which edition was read', () => {
    for (const { edition } of RULE_SETS) expect(edition).toMatch(/\b\d{4}\b/);
  });

  it('cite a section of 9 CFR for every standard and have at least one limit', () => {
    for (const { productClass, says, citation, limits } of STANDARDS) {
      expect(citation, productClass).toMatch(/^9 CFR (?:319|381)\.\d+/);
      expect(says, productClass).toMatch(/\S/);
      expect(limits.length, productClass).toBeGreaterThan(0);
    }
  });

  it('name the product wherever the standard is about one product', () => {
    const nameless = STANDARDS.filter(({ naming }) => naming.name === undefined);
    expect(nameless.map(({ productClass }) => productClass)).toEqual([
      'uncooked-sausage',
      'cooked-sausage',
      'dry-sausage',
      'semi-dry-sausage',
      'poultry-sausage',
      'cooked-poultry-sausage',
    ]);
  });

  it('allow the lean and fat pair to ground product only', () => {
    const paired = US.standards.filter(({ naming }) => naming.leanPair);
    expect(paired.map(({ productClass }) => productClass)).toEqual([
      'ground-beef',
      'hamburger',
      'beef-patties',
      'ground-pork',
      'ground-veal',
      'ground-lamb',
      // 9 CFR 381.462(f).
      'ground-chicken',
      'chicken-burgers',
      'ground-turkey',
      'turkey-burgers',
    ]);
  });

  it('hold their limits from the first day that is known on, without an end', () => {
    for (const { productClass, limits: dated } of STANDARDS) {
      // The water of frankfurters before 1988 is kept for the record.
      const limits = dated.filter(({ id }) => id !== 'us-319.180a-added-water-1988');
      expect(inForceOn(dated, US.knownFrom), productClass).toEqual(limits);
      expect(inForceOn(limits, '2099-12-31'), productClass).toEqual(limits);
    }
  });

  it('say whole sentences of what a laboratory finds, one rule an id', () => {
    const all = STANDARDS.flatMap(({ laboratory = [] }) => laboratory);
    expect(all.filter(({ says }) => !/^[A-Z].*[^.\s]\.$/.test(says))).toEqual([]);
    for (const rule of all) expect(all.find(({ id }) => id === rule.id)).toBe(rule);
  });
});

describe('every limit of the law', () => {
  it('has an id of its own within its standard', () => {
    for (const {
      standard: { productClass, limits },
    } of ALL_STANDARDS) {
      expect(new Set(limits.map(({ id }) => id)).size, productClass).toBe(limits.length);
    }
  });

  it('is the same limit wherever its id stands', () => {
    expect(offenders((limit) => !isDeepStrictEqual(limit, limitOf(limit.id)))).toEqual([]);
  });

  it('has an id of the jurisdiction in small letters, digits, points and hyphens', () => {
    for (const { ruleSet, standard } of ALL_STANDARDS) {
      const shape = new RegExp(`^${ruleSet.jurisdiction}-[a-z0-9]+(?:[.-][a-z0-9]+)*$`);
      expect(standard.limits.filter(({ id }) => !shape.test(id))).toEqual([]);
      expect((standard.laboratory ?? []).filter(({ id }) => !shape.test(id))).toEqual([]);
    }
  });

  it('says a whole sentence that ends with a point', () => {
    expect(offenders(({ says }) => !/^[A-Z].*[^.\s]\.$/.test(says))).toEqual([]);
  });

  it('has no noise of a calculation in its sentence', () => {
    expect(offenders(({ says }) => /\d\.\d{4,}/.test(says))).toEqual([]);
  });

  it('names the figure of its bound in its sentence', () => {
    const silent = offenders(({ says, bound, unit }) => {
      if (bound === 0) return false;
      if (unit === 'to 1') return !says.includes(`${bound} to 1`);
      const percent = Number((bound * 100).toPrecision(12));
      const ppm = Number((bound * 1e6).toPrecision(12));
      const figures = unit === 'ppm' ? [`${ppm} ppm`, `${percent} %`] : [`${percent} %`];
      return !figures.some((figure) => says.includes(figure));
    });
    expect(silent).toEqual([]);
  });

  it('cites a source', () => {
    expect(offenders(({ citation }) => citation.trim() === '')).toEqual([]);
    expect(
      offenders(
        ({ id, citation, read }) =>
          id.startsWith('us-') && read === 'official' && !/^9 CFR \d{3}\./.test(citation),
      ),
    ).toEqual([]);
    expect(
      offenders(
        ({ id, citation, read }) =>
          id.startsWith('us-') && read === 'secondary' && !/^(?:9 CFR \d{3}\.|agency )/.test(citation),
      ),
    ).toEqual([]);
  });

  it('cites the section that its id names', () => {
    const strange = offenders(({ id, citation }) => {
      const section = /^us-(\d{3}\.\d+)/.exec(id)?.[1];
      return section !== undefined && !citation.includes(section) && !citation.startsWith('agency');
    });
    expect(strange).toEqual([]);
  });

  it('has a finite bound from 0 to 1, the fraction of a percent or of parts per million', () => {
    expect(
      offenders(
        ({ bound, unit }) => !(Number.isFinite(bound) && bound >= 0 && bound <= (unit === 'to 1' ? 5 : 1)),
      ),
    ).toEqual([]);
    expect(offenders(({ bound, unit }) => unit === 'ppm' && bound > 0.01)).toEqual([]);
    expect(offenders(({ bound, unit }) => unit === 'percent' && bound > 0 && bound < 0.001)).toEqual([]);
  });

  it('is a limit of the law in percent or parts per million', () => {
    expect(offenders(({ authority }) => authority !== 'law')).toEqual([]);
    expect(offenders(({ unit }) => unit === 'price per kg')).toEqual([]);
  });

  it('asks for something without a figure, or limits with one', () => {
    expect(offenders(({ sense, bound }) => sense === 'present' && bound !== 0)).toEqual([]);
    expect(offenders(({ sense, bound }) => sense === 'min' && bound === 0)).toEqual([]);
  });

  it('is marked where it was entered from memory', () => {
    expect(readAs('from memory')).toEqual(FROM_MEMORY);
  });

  it('is marked where another text than the rule was read', () => {
    expect(readAs('secondary')).toEqual(SECONDARY);
  });

  it('has its dates as days, the first before the last', () => {
    const dated = offenders(({ inForce }) => {
      if (!inForce) return false;
      const { from, until } = inForce;
      if (from !== undefined && !DAY.test(from)) return true;
      if (until !== undefined && !DAY.test(until)) return true;
      return from !== undefined && until !== undefined && from >= until;
    });
    expect(dated).toEqual([]);
  });
});

describe('which class holds which limit', () => {
  const classes = STANDARDS.map(({ productClass }) => productClass);
  const has = (productClass: string, id: string) =>
    standardOf(productClass).limits.some((limit) => limit.id === id);
  const holding = (id: string) => classes.filter((productClass) => has(productClass, id));
  const laboratory = (productClass: string) =>
    (standardOf(productClass).laboratory ?? []).map(({ id }) => id);

  const FRESH = [
    'fresh-pork-sausage',
    'fresh-beef-sausage',
    'breakfast-sausage',
    'whole-hog-sausage',
    'italian-sausage',
    'uncooked-sausage',
  ];
  const FRANKFURTERS = ['frankfurter', 'frankfurter-with-byproducts', 'cheesefurter'];
  const LIVER = ['braunschweiger', 'liver-sausage'];
  const COOKED = [...FRANKFURTERS, 'cooked-sausage', ...LIVER];
  const DRY = ['dry-sausage', 'pepperoni', 'genoa-salami'];
  const SEMI_DRY = ['semi-dry-sausage', 'thuringer', 'farmer-summer-sausage'];
  const UNCOOKED = [...FRESH, 'smoked-pork-sausage', ...DRY, ...SEMI_DRY];
  const BIRDS = ['chicken', 'turkey'].flatMap((kind) => [
    `ground-${kind}`,
    `${kind}-burgers`,
    `${kind}-patties`,
  ]);
  const BIRD_SAUSAGE = ['poultry-sausage', 'cooked-poultry-sausage'];
  const CURED = [
    'smoked-pork-sausage',
    ...COOKED,
    'luncheon-meat',
    ...DRY,
    ...SEMI_DRY,
    'jerky',
    'cooked-poultry-sausage',
  ];

  // 9 CFR 319.140
  it.each(UNCOOKED)('uncooked sausage takes 3 %% of water and no phosphate: %s', (productClass) => {
    expect(has(productClass, 'us-319.140-water')).toBe(true);
    expect(has(productClass, 'us-319.140-no-phosphate')).toBe(true);
    expect(has(productClass, 'us-424.21c-phosphate')).toBe(false);
  });

  // 9 CFR 424.21(c), miscellaneous, and 319.140
  it.each(COOKED)('cooked sausage takes 0.5 %% of phosphate and no 3 %% of water: %s', (productClass) => {
    expect(has(productClass, 'us-319.140-water')).toBe(false);
    expect(has(productClass, 'us-424.21c-phosphate')).toBe(true);
  });

  it('every class refuses phosphate or limits it, in one way', () => {
    for (const { productClass, limits } of STANDARDS) {
      const found = limits.filter(({ id }) => /-no-phosphate$|-phosphate(?:-[a-z]+)?$/.test(id));
      expect(
        found.filter(({ id }) => !id.includes('pyro')),
        productClass,
      ).toHaveLength(1);
    }
  });

  // 9 CFR 319.140, 319.180 to 319.182
  it('added water is 10 % for cooked sausage with liver among it and 40 % with fat for frankfurters alone', () => {
    expect(holding('us-319.140-added-water')).toEqual(['cooked-sausage', ...LIVER]);
    const withFat = classes.filter((productClass) =>
      standardOf(productClass).limits.some(({ id }) => id.endsWith('-fat-and-added-water')),
    );
    expect(withFat).toEqual(FRANKFURTERS);
  });

  // 9 CFR 319.15(a) to (c) and 424.21(c), flavoring agents
  it('phosphate goes into beef patties and into no other ground beef', () => {
    expect(has('beef-patties', 'us-424.21c-phosphate-patties')).toBe(true);
    for (const productClass of ['ground-beef', 'hamburger']) {
      expect(has(productClass, 'us-319.15-no-phosphate'), productClass).toBe(true);
    }
  });

  // 9 CFR 424.21(c), curing agents
  it.each(CURED)('cured product has a limit of nitrite, going in and found: %s', (productClass) => {
    expect(has(productClass, 'us-424.21c-nitrite-comminuted')).toBe(true);
    expect(has(productClass, 'us-not-cured')).toBe(false);
    expect(laboratory(productClass)).toContain('us-424.21c-nitrite-found');
  });

  it('whatever is not cured holds no nitrite at all', () => {
    expect(holding('us-424.21c-nitrite-comminuted')).toEqual(CURED);
    expect(holding('us-not-cured')).toEqual(classes.filter((productClass) => !CURED.includes(productClass)));
  });

  // 9 CFR 424.21(c), curing accelerators: "must be used only in combination with curing agents"
  it('accelerators are limited where there is a cure and kept out where there is none', () => {
    for (const productClass of classes) {
      const cured = CURED.includes(productClass);
      for (const id of [
        'us-424.21c-ascorbic-acid',
        'us-424.21c-sodium-ascorbate',
        'us-424.21c-citric-acid',
        'us-424.21c-fumaric-acid',
      ]) {
        expect(has(productClass, id), `${productClass}: ${id}`).toBe(cured);
      }
      for (const id of [
        'us-424.21c-no-accelerator-without-cure',
        'us-424.21c-no-fumaric-acid-without-cure',
      ]) {
        expect(has(productClass, id), `${productClass}: ${id}`).toBe(!cured);
      }
    }
  });

  // 9 CFR 424.21(c), curing accelerators
  it('glucono delta lactone is 1 % in Genoa salami and 0.5 % in other cured meat, acid pyrophosphate for frankfurters', () => {
    expect(holding('us-424.21c-glucono-delta-lactone-genoa')).toEqual(['genoa-salami']);
    expect(holding('us-424.21c-glucono-delta-lactone')).toEqual(
      CURED.filter((name) => name !== 'genoa-salami' && name !== 'cooked-poultry-sausage'),
    );
    expect(holding('us-424.21c-acid-pyrophosphate-of-meat')).toEqual(FRANKFURTERS);
    expect(holding('us-424.21c-acid-pyrophosphate-of-product')).toEqual(FRANKFURTERS);
    expect(holding('us-424.21c-sorbitol')).toEqual(['frankfurter', 'frankfurter-with-byproducts']);
  });

  // 9 CFR 424.21(c), antioxidants
  it('each family of antioxidants stands in its own products and in no other', () => {
    const families = {
      'fresh-sausage': FRESH,
      'dry-sausage': DRY,
      'dried-meat': ['jerky'],
      poultry: [...BIRDS, ...BIRD_SAUSAGE],
    };
    for (const [family, listed] of Object.entries(families)) {
      for (const name of ['bha', 'bht', 'propyl-gallate', 'tbhq', 'antioxidants']) {
        expect(holding(`us-424.21c-${name}-${family}`), `${name}-${family}`).toEqual(listed);
      }
    }
    const listed = Object.values(families).flat();
    expect(holding('us-no-antioxidants')).toEqual(classes.filter((name) => !listed.includes(name)));
    expect(holding('us-424.21c-citric-acid-fresh-sausage')).toEqual(FRESH);
  });

  it('tocopherols are limited where they are listed and kept out elsewhere', () => {
    const listed = [...FRESH, ...DRY, ...SEMI_DRY, 'jerky'];
    const birds = [...BIRDS, ...BIRD_SAUSAGE];
    expect(holding('us-424.21c-tocopherols')).toEqual(listed);
    expect(holding('us-424.21c-tocopherols-poultry')).toEqual(birds);
    expect(holding('us-no-tocopherols')).toEqual(
      classes.filter((name) => !listed.includes(name) && !birds.includes(name)),
    );
  });

  // 9 CFR 319.6 and 319.5(b)
  it('every class either refuses mechanically separated meat or limits it to 20 % and refuses the beef', () => {
    for (const productClass of classes) {
      const refused =
        has(productClass, 'us-319.6d-no-mechanically-separated') ||
        has(productClass, 'us-ground-meat-no-mechanically-separated');
      const limited =
        has(productClass, 'us-319.6-mechanically-separated-share') &&
        has(productClass, 'us-319.5b-mechanically-separated-beef');
      expect(refused !== limited, productClass).toBe(true);
    }
    expect(holding('us-319.6d-no-mechanically-separated')).toEqual([
      'ground-beef',
      'hamburger',
      'fabricated-steak',
    ]);
  });

  // 9 CFR 319.140 to 319.182: sausage under its own name alone takes vegetables, as do loaves, chili and patties
  it('these classes take more than meat and seasoning', () => {
    const free = STANDARDS.filter(
      ({ limits }) => !limits.some(({ id }) => /-seasoning-only$|-no-filler$/.test(id)),
    );
    expect(free.map(({ productClass }) => productClass)).toEqual([
      'uncooked-sausage',
      'cheesefurter',
      'cooked-sausage',
      'meat-loaf',
      'scrapple',
      'bockwurst',
      'chili-con-carne',
      'chili-con-carne-with-beans',
      ...DRY,
      ...SEMI_DRY,
      'jerky',
      'chicken-patties',
      'turkey-patties',
      ...BIRD_SAUSAGE,
    ]);
  });

  // 9 CFR 319.140, 319.143, 319.180(a); elsewhere the species is fixed
  it('every class limits poultry, or meat in poultry, or names the species that go in', () => {
    for (const { productClass, limits } of STANDARDS) {
      const limiting = limits.filter(({ id }) =>
        /(?:^us-(?!381.117|424).*-poultry|-only|memo-075-meat)$/.test(id.replace('-seasoning-only', '')),
      );
      expect(
        limiting.map(({ id }) => id),
        productClass,
      ).toHaveLength(1);
    }
  });

  // 9 CFR 319.140 and 424.21(c), binders
  it('every class of sausage of meat limits binders or refuses them', () => {
    for (const productClass of [...UNCOOKED, ...COOKED, 'luncheon-meat', 'bockwurst']) {
      const refused = standardOf(productClass).limits.some(({ id }) => /-no-(?:binder|extender)$/.test(id));
      const family = productClass === 'cheesefurter' ? 'us-319.181' : 'us-424.21c';
      const limited = ['binders', 'isolated-soy', 'caseinate'].every((name) =>
        has(productClass, `${family}-${name}`),
      );
      expect(refused !== limited, productClass).toBe(true);
      for (const id of ['us-319.140-pork-collagen', 'us-319.140-transglutaminase']) {
        expect(has(productClass, id), `${productClass}: ${id}`).toBe(limited);
      }
    }
  });

  // T-33: labeling policy, not 9 CFR
  it('a ratio of moisture to protein stands in dried product alone, one to a class, and never as a proof', () => {
    const dried = [...DRY, ...SEMI_DRY, 'jerky'];
    for (const { productClass, limits, cooking, laboratory: found = [] } of STANDARDS) {
      const ratios = limits.filter(({ unit }) => unit === 'to 1');
      expect(ratios, productClass).toHaveLength(dried.includes(productClass) ? 1 : 0);
      expect(cooking.includes('dried'), productClass).toBe(dried.includes(productClass));
      for (const { note, read } of ratios) {
        expect(note).toContain('no proof of safety');
        expect(read).not.toBe('official');
        expect(found.map(({ id }) => id)).toContain('us-317.17c-not-preserved');
      }
    }
    expect(laboratory('semi-dry-sausage')).toContain('us-semi-dry-ph-shelf-stable');
    expect(laboratory('jerky')).toContain('us-jerky-water-activity');
  });

  // 9 CFR 381.160
  it('burgers and ground poultry are of one kind, without binder, filler or water; patties may hold a binder', () => {
    for (const kind of ['chicken', 'turkey']) {
      for (const productClass of [`ground-${kind}`, `${kind}-burgers`]) {
        for (const id of ['no-binder', 'no-filler', 'no-added-water', 'no-phosphate', `${kind}-only`]) {
          expect(has(productClass, `us-381.160-${id}`), `${productClass}: ${id}`).toBe(true);
        }
      }
      expect(has(`${kind}-patties`, 'us-381.160-no-binder')).toBe(false);
      expect(has(`${kind}-patties`, 'us-424.21c-caseinate-poultry-raw')).toBe(true);
      expect(has(`${kind}-patties`, `us-381.117d-${kind}-skin`)).toBe(true);
    }
    expect(has('cooked-poultry-sausage', 'us-424.21c-caseinate-poultry-cooked')).toBe(true);
    expect(has('poultry-sausage', 'us-424.21c-caseinate-poultry-raw')).toBe(true);
  });
});

describe('what the ingredient tables say of liquids', () => {
  const materials = loadMaterials(fileURLToPath(new URL('../../ingredient-tables/', import.meta.url)));

  it('free water is never more than the water there is', () => {
    for (const { id, kind, composition, substances } of materials.values()) {
      const free = substances['free water'] ?? 0;
      expect(free, id).toBeLessThanOrEqual(composition.waterFraction);
      if (kind === 'water' || kind === 'vegetable') expect(free, id).toBe(0);
    }
  });

  it('no wet seasoning goes uncounted but fresh onions, herbs, ginger and chilies', () => {
    const wet = [...materials.values()].filter(
      ({ kind, composition, substances }) =>
        kind !== 'water' &&
        kind !== 'vegetable' &&
        composition.waterFraction > 0.6 &&
        substances['free water'] === undefined,
    );
    const seasonings = wet.filter(({ species, kind }) => !species && kind !== 'casing').map(({ id }) => id);
    expect(seasonings.sort()).toEqual([
      'ginger-fresh',
      'green-onion',
      'jalapeno-fresh',
      'onion-fresh',
      'parsley-fresh',
    ]);
  });
});

describe('the binders of the earlier 9 CFR 319.140 in the ingredient tables', () => {
  const materials = loadMaterials(fileURLToPath(new URL('../../ingredient-tables/', import.meta.url)));

  // 1 CRR-NY 319.140, a state copy of the earlier federal text; dried milk and whey 9 CFR 424.21(c), binders.
  it.each([
    'nonfat-dry-milk',
    'calcium-reduced-dried-skim-milk',
    'dried-whey',
    'soy-flour',
    'soy-protein-concentrate',
    'isolated-soy-protein',
    'sodium-caseinate',
    'corn-starch',
    'cereal',
  ])('%s counts as a binder', (id) => {
    expect(materials.get(id)?.kind).toBe('binder');
  });
});
