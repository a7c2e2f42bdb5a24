import { fileURLToPath } from 'node:url';
import { isDeepStrictEqual } from 'node:util';
import { describe, expect, it } from 'vitest';
import type { Limit } from '../../src/rules/limit.ts';
import { RULE_SETS } from '../../src/standards/all.ts';
import { US } from '../../src/standards/us/us.ts';
import { loadMaterials } from '../../src/tables/materials.ts';
import { ALL_LIMITS, ALL_STANDARDS, LIMITS_BY_ID, limitOf, standardOf } from '../helpers/materials.ts';

const DAY = /^\d{4}-\d{2}-\d{2}$/;
const offenders = (wrong: (limit: Limit) => boolean) =>
  ALL_LIMITS.filter(({ limit }) => wrong(limit)).map(
    ({ standard, limit }) => `${standard.productClass}: ${limit.id}`,
  );

/** Rules that were entered without a text at hand; every other one must have been read. */
const FROM_MEMORY = ['us-319.15-no-heart-or-tongue', 'us-319.160-no-byproducts'];

/** Rules of which a part was read only in another text than the rule itself. */
const SECONDARY = [
  // The figure follows from a memo on the inspection legend, read on a page that quotes it.
  'us-319.140-poultry',
  // How soy protein counts is in an earlier text of 9 CFR 319.140 only.
  'us-424.21c-binders',
  // The ounces were read in the rule, the rounded ppm in texts that quote inspectors' material.
  'us-424.21c-nitrate-comminuted',
  'us-424.21c-nitrite-comminuted',
  // Written for Italian sausage; the rest follows from what the other standards do not name.
  'us-not-cured',
];

const readAs = (read: Limit['read']) =>
  [...LIMITS_BY_ID.values()]
    .filter(({ id }) => id.startsWith('us-'))
    .filter((limit) => limit.read === read)
    .map(({ id }) => id)
    .sort();

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
    expect(US.standards.map(({ productClass }) => productClass)).toEqual([
      'ground-beef',
      'hamburger',
      'beef-patties',
      'fresh-pork-sausage',
      'fresh-beef-sausage',
      'breakfast-sausage',
      'whole-hog-sausage',
      'italian-sausage',
      'uncooked-sausage',
      'smoked-pork-sausage',
      'frankfurter',
      'cooked-sausage',
    ]);
  });

  it('say which edition was read', () => {
    for (const { edition } of RULE_SETS) expect(edition).toMatch(/\b\d{4}\b/);
  });

  it('cite a section of 9 CFR for every standard and have at least one limit', () => {
    for (const { productClass, says, citation, limits } of US.standards) {
      expect(citation, productClass).toMatch(/^9 CFR 319\.\d+/);
      expect(says, productClass).toMatch(/\S/);
      expect(limits.length, productClass).toBeGreaterThan(0);
    }
  });

  it('name the product wherever the standard is about one product', () => {
    const nameless = US.standards.filter(({ naming }) => naming.name === undefined);
    expect(nameless.map(({ productClass }) => productClass)).toEqual(['uncooked-sausage', 'cooked-sausage']);
  });

  it('allow the lean and fat pair to ground product only', () => {
    const paired = US.standards.filter(({ naming }) => naming.leanPair);
    expect(paired.map(({ productClass }) => productClass)).toEqual([
      'ground-beef',
      'hamburger',
      'beef-patties',
    ]);
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
          id.startsWith('us-') && read !== 'from memory' && !/^9 CFR \d{3}\./.test(citation),
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
  const has = (productClass: string, id: string) =>
    standardOf(productClass).limits.some((limit) => limit.id === id);

  const UNCOOKED = [
    'fresh-pork-sausage',
    'fresh-beef-sausage',
    'breakfast-sausage',
    'whole-hog-sausage',
    'italian-sausage',
    'uncooked-sausage',
    'smoked-pork-sausage',
  ];
  const COOKED = ['frankfurter', 'cooked-sausage'];

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

  // 9 CFR 319.140 and 319.180(a)
  it('added water is 10 % for other cooked sausage alone and 40 % with fat for frankfurters alone', () => {
    const holding = (id: string) =>
      US.standards
        .filter(({ productClass }) => has(productClass, id))
        .map(({ productClass }) => productClass);
    expect(holding('us-319.140-added-water')).toEqual(['cooked-sausage']);
    expect(holding('us-319.180a-fat-and-added-water')).toEqual(['frankfurter']);
  });

  // 9 CFR 319.15(a) to (c) and 424.21(c), flavoring agents
  it('phosphate goes into beef patties and into no other ground beef', () => {
    expect(has('beef-patties', 'us-424.21c-phosphate-patties')).toBe(true);
    for (const productClass of ['ground-beef', 'hamburger']) {
      expect(has(productClass, 'us-319.15-no-phosphate'), productClass).toBe(true);
    }
  });

  // 9 CFR 424.21(c), curing agents
  it.each([...COOKED, 'smoked-pork-sausage'])('cured sausage has a limit of nitrite: %s', (productClass) => {
    expect(has(productClass, 'us-424.21c-nitrite-comminuted')).toBe(true);
    expect(has(productClass, 'us-not-cured')).toBe(false);
  });

  it('whatever is not cured holds no nitrite at all', () => {
    for (const { productClass } of US.standards) {
      expect(
        Number(has(productClass, 'us-not-cured')) +
          Number(has(productClass, 'us-424.21c-nitrite-comminuted')),
        productClass,
      ).toBe(1);
    }
  });

  // 9 CFR 424.21(c), curing accelerators: "must be used only in combination with curing agents"
  it('accelerators are limited where there is a cure and kept out where there is none', () => {
    for (const { productClass } of US.standards) {
      const cured = has(productClass, 'us-424.21c-nitrite-comminuted');
      for (const id of [
        'us-424.21c-ascorbic-acid',
        'us-424.21c-sodium-ascorbate',
        'us-424.21c-citric-acid',
      ]) {
        expect(has(productClass, id), `${productClass}: ${id}`).toBe(cured);
      }
      expect(has(productClass, 'us-424.21c-no-accelerator-without-cure'), productClass).toBe(!cured);
    }
  });

  // 9 CFR 424.21(c), antioxidants
  it('antioxidants go into fresh sausage and into nothing else', () => {
    const fresh = UNCOOKED.filter((productClass) => productClass !== 'smoked-pork-sausage');
    for (const { productClass } of US.standards) {
      const listed = fresh.includes(productClass);
      expect(has(productClass, 'us-no-antioxidants'), productClass).toBe(!listed);
      for (const name of ['bha', 'bht', 'propyl-gallate', 'tbhq', 'antioxidants', 'citric-acid']) {
        expect(has(productClass, `us-424.21c-${name}-fresh-sausage`), `${productClass}: ${name}`).toBe(
          listed,
        );
      }
    }
  });

  // 9 CFR 319.6 and 319.5(b)
  it('every class either refuses mechanically separated meat or limits it to 20 % and refuses the beef', () => {
    for (const { productClass } of US.standards) {
      const refused = has(productClass, 'us-319.6d-no-mechanically-separated');
      const limited =
        has(productClass, 'us-319.6-mechanically-separated-share') &&
        has(productClass, 'us-319.5b-mechanically-separated-beef');
      expect(refused !== limited, productClass).toBe(true);
    }
  });

  // 9 CFR 319.140 to 319.160 and 319.180: only sausage under its own name takes vegetables and cheese
  it('every class but other uncooked and other cooked sausage takes nothing beside meat and seasoning', () => {
    const free = US.standards.filter(
      ({ limits }) => !limits.some(({ id }) => id.endsWith('-seasoning-only')),
    );
    expect(free.map(({ productClass }) => productClass)).toEqual(['uncooked-sausage', 'cooked-sausage']);
  });

  // 9 CFR 319.140, 319.143, 319.180(a); elsewhere the species is fixed
  it('every class limits poultry or names the one species that goes in', () => {
    for (const { productClass, limits } of US.standards) {
      const limiting = limits.filter(({ id }) => /-(?:beef-only|pork-only|no-poultry|poultry)$/.test(id));
      expect(limiting.length, productClass).toBe(1);
    }
  });

  // 9 CFR 319.140 and 424.21(c), binders
  it('every class of sausage that may carry binders limits them', () => {
    for (const { productClass, limits } of US.standards.slice(3)) {
      const refused = limits.some(({ id }) => id.endsWith('-no-binder'));
      const limited = has(productClass, 'us-424.21c-binders') && has(productClass, 'us-424.21c-isolated-soy');
      expect(refused !== limited, productClass).toBe(true);
    }
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
