import { describe, expect, it } from 'vitest';
import {
  COLLAGEN_PER_HYDROXYPROLINE,
  CONNECTIVE_TISSUE_PER_COLLAGEN,
  LABEL_SALT_PER_SODIUM,
  molarMass,
  PROTEIN_PER_NITROGEN,
  SODIUM_PER_SALT,
} from '../../src/chemistry.ts';
import { inForceOn, shownBound } from '../../src/rules/limit.ts';
import { EU } from '../../src/standards/eu/eu.ts';
import { COOKED, checkOne, DRIED, RAW, standardOf, type Weighed } from '../helpers/materials.ts';

const MINCE = [
  'lean-minced-meat',
  'minced-pure-beef',
  'minced-meat-with-pigmeat',
  'minced-meat-other-species',
];
const NITRITE_FREE_PREPARATIONS = [
  'fresh-sausage',
  'burger',
  'breakfast-sausage',
  'burger-meat',
  'fresh-longaniza',
  'fresh-klobasa',
];
const CURED_PREPARATIONS = ['cured-meat-preparation', 'cured-meat-preparation-with-phosphate'];
const PREPARATIONS = [...NITRITE_FREE_PREPARATIONS, ...CURED_PREPARATIONS];
/** Cured with nitrate alone. */
const NITRATE_ALONE = [
  'dried-sausage-without-nitrite',
  'rohwurst',
  'long-cured-chorizo',
  'saucisson-sec',
  'filet-de-bacon-without-nitrite',
  'jambon-sec',
];
/** Bounded by what is left. */
const BY_RESIDUE = [
  'immersion-cured-bacon',
  'immersion-cured-ham',
  'cured-tongue',
  'dry-cured-bacon',
  'dry-cured-ham',
  'jambon-sec',
  'rohschinken',
  'jellied-veal',
];

const ALL = EU.standards.map(({ productClass }) => productClass);
const PRODUCTS = ALL.filter((name) => !MINCE.includes(name) && !PREPARATIONS.includes(name));
const limits = (productClass: string, date: string) => inForceOn(standardOf(productClass, 'eu').limits, date);
const laboratory = (productClass: string, date: string) =>
  inForceOn(standardOf(productClass, 'eu').laboratory ?? [], date);
const holding = (id: string) =>
  ALL.filter((productClass) => standardOf(productClass, 'eu').limits.some((limit) => limit.id === id));
/** The figure for nitrate on a day, 0 where none may go in. */
const nitrateFigures = (productClass: string, date: string) =>
  limits(productClass, date)
    .filter(({ id }) => /-nitrate(?:-2025)?$/.test(id) && id !== 'eu-1333-only-nitrate')
    .map((limit) => shownBound(limit));
/** The ids of the limits in force that a batch breaks. */
const broken = (productClass: string, date: string, lines: readonly Weighed[], process = RAW) =>
  limits(productClass, date)
    .filter((limit) => !checkOne(limit, lines, process).holds)
    .map(({ id }) => id);

const BEFORE = '2025-10-08';
const AFTER = '2025-10-09';

describe('the rules of the European Union', () => {
  it('are about these classes', () => {
    expect(ALL).toEqual([
      ...MINCE,
      ...PREPARATIONS,
      'dried-sausage',
      'cooked-sausage',
      'canned-meat',
      'dried-sausage-without-nitrite',
      'rohwurst',
      'long-cured-chorizo',
      'saucisson-sec',
      'spreadable-raw-sausage',
      'vysocina',
      'svensk-leverpastej',
      'filet-de-bacon',
      'filet-de-bacon-without-nitrite',
      'immersion-cured-bacon',
      'immersion-cured-ham',
      'cured-tongue',
      'dry-cured-bacon',
      'dry-cured-ham',
      'jambon-sec',
      'rohschinken',
      'jellied-veal',
    ]);
  });

  it('cite an act of the Union everywhere', () => {
    const cited = EU.standards.flatMap((standard) => [
      standard,
      ...standard.limits,
      ...(standard.laboratory ?? []),
    ]);
    expect(cited.filter(({ citation }) => !/^Regulation \((?:EC|EU)\) No \d+\/\d+/.test(citation))).toEqual(
      [],
    );
  });

  it('were read in the official text but for these', () => {
    const unread = EU.standards
      .flatMap(({ limits, laboratory = [] }) => [...limits, ...laboratory])
      .filter(({ read }) => read !== 'official');
    expect([...new Set(unread.map(({ id, read }) => `${id}: ${read}`))].sort()).toEqual([
      'eu-1333-08.3-no-fumaric-acid: from memory',
      'eu-2073-2.1.6-colonies: from memory',
      'eu-2073-2.1.6-escherichia-coli: from memory',
      'eu-2073-2.1.8-escherichia-coli: from memory',
      'eu-999-no-separated-ruminants: from memory',
    ]);
  });

  it('ask for the meat content of everything but mince, once for each kind of meat', () => {
    for (const { productClass, meatContent, naming } of EU.standards) {
      const mince = MINCE.includes(productClass);
      expect(meatContent === undefined, productClass).toBe(mince);
      if (!mince) {
        expect(meatContent?.meats.map(({ id }) => id)).toEqual([
          'declarablePork',
          'declarableMammals',
          'declarableBirds',
        ]);
        expect(meatContent?.citation).toContain('1169/2011, Annex VII part B 17');
      }
      expect(naming).toMatchObject({ species: 'none', leanPair: false });
    }
  });

  it('sell mince and preparations raw', () => {
    for (const name of [...MINCE, ...PREPARATIONS]) expect(standardOf(name, 'eu').cooking).toEqual(['raw']);
  });
});

describe('minced meat', () => {
  // Regulation (EU) No 1169/2011, Annex VI part B 1
  it.each([
    ['lean-minced-meat', 7, 12],
    ['minced-pure-beef', 20, 15],
    ['minced-meat-with-pigmeat', 30, 18],
    ['minced-meat-other-species', 25, 15],
  ])('%s holds at most %d %% fat, and %d %% of its protein is collagen', (name, fat, collagen) => {
    const bounds = limits(name, AFTER)
      .filter(({ citation, bound }) => citation.includes('1169/2011') && bound > 0)
      .map((limit) => shownBound(limit));
    expect(bounds).toEqual([fat, collagen]);
  });

  it('is meat and less than 1 % of salt', () => {
    for (const name of MINCE) {
      const ids = limits(name, AFTER).map(({ id }) => id);
      expect(ids).toEqual(
        expect.arrayContaining(['eu-853-minced-salt', 'eu-853-minced-only-meat', 'eu-853-minced-muscle']),
      );
    }
    const salted = (salt: string, beef: string) =>
      broken('minced-meat-other-species', AFTER, [
        ['salt', salt],
        ['beef', beef],
      ]);
    expect(salted('0.9', '99.1')).toEqual([]);
    expect(salted('1.1', '98.9')).toEqual(['eu-853-minced-salt']);
  });

  it('T-21: compares unrounded values', () => {
    const at = (beef: string) =>
      broken('lean-minced-meat', AFTER, [
        ['beef-fat-20', '1'],
        ['beef-fat-06', beef],
      ]);
    expect(at('13')).toEqual([]);
    expect(at('12.9999')).toEqual(['eu-1169-lean-minced-meat-fat']);
  });

  it('T-11: protein of soy makes no room for collagen, and soy does not go in at all', () => {
    const lines: Weighed[] = [
      ['pork-sinewy', '4'],
      ['pork', '76'],
      ['isolated-soy-protein', '50'],
    ];
    expect(broken('lean-minced-meat', AFTER, lines)).toEqual([
      'eu-1169-lean-minced-meat-fat',
      'eu-1169-lean-minced-meat-collagen',
      'eu-853-minced-only-meat',
    ]);
  });

  it('is pure beef only of beef and veal, and without pigmeat under "other species"', () => {
    expect(broken('minced-pure-beef', AFTER, [['veal', '1']])).toEqual([]);
    expect(broken('minced-pure-beef', AFTER, [['lamb', '1']])).toEqual(['eu-1169-minced-pure-beef-only']);
    expect(broken('minced-meat-other-species', AFTER, [['pork', '1']])).toEqual([
      'eu-1169-minced-other-species-no-pigmeat',
    ]);
  });
});

describe('nitrite and nitrate', () => {
  // Category, until and from 9 October 2025: as the sodium salt, then as the ion.
  it.each([
    ['cured-meat-preparation', 150, 80],
    ['cured-meat-preparation-with-phosphate', 150, 80],
    ['dried-sausage', 150, 80],
    ['cooked-sausage', 150, 80],
    ['canned-meat', 100, 55],
    ['spreadable-raw-sausage', 150, 100],
    ['vysocina', 180, 105],
    ['svensk-leverpastej', 150, 100],
    ['filet-de-bacon', 150, 100],
    ['immersion-cured-bacon', 175, 105],
    ['immersion-cured-ham', 100, 65],
    ['dry-cured-bacon', 175, 105],
    ['dry-cured-ham', 100, 65],
    ['rohschinken', 50, 30],
    ['cured-tongue', 50, 30],
    ['jellied-veal', 50, 30],
  ])(
    'nitrite of %s is %d ppm of salt before and %d ppm of ion from 9 October 2025',
    (name, before, after) => {
      const nitrite = (date: string) =>
        limits(name, date)
          .filter(({ id }) => /-nitrite(?:-2025)?$/.test(id))
          .map((limit) => [shownBound(limit), limit.numerator.id]);
      expect(nitrite(BEFORE)).toEqual([[before, 'nitriteAsSodiumNitrite']]);
      expect(nitrite(AFTER)).toEqual([[after, 'nitriteIon']]);
    },
  );

  it.each([
    ['dried-sausage', 150, 90],
    ['dried-sausage-without-nitrite', 150, 110],
    ['rohwurst', 300, 180],
    ['long-cured-chorizo', 250, 180],
    ['saucisson-sec', 250, 180],
    ['filet-de-bacon-without-nitrite', 250, 180],
    ['immersion-cured-bacon', 250, 150],
    ['immersion-cured-ham', 250, 150],
    ['dry-cured-bacon', 250, 150],
    ['dry-cured-ham', 250, 150],
    ['jambon-sec', 250, 150],
    ['rohschinken', 250, 150],
    ['cured-tongue', 10, 7],
    ['jellied-veal', 10, 7],
    ['spreadable-raw-sausage', 150, 0],
    ['cooked-sausage', 0, 0],
    ['canned-meat', 0, 0],
    ['cured-meat-preparation', 0, 0],
  ])(
    'nitrate of %s is %d ppm of salt before and %d ppm of ion from 9 October 2025',
    (name, before, after) => {
      expect(nitrateFigures(name, BEFORE)).toEqual([before]);
      expect(nitrateFigures(name, AFTER)).toEqual([after]);
    },
  );

  it('are bounded or refused in every class on either side of the day', () => {
    for (const productClass of ALL) {
      for (const date of ['2015-01-01', BEFORE, AFTER, '2026-11-25']) {
        for (const salt of ['sodium-nitrite', 'potassium-nitrite', 'sodium-nitrate', 'potassium-nitrate']) {
          // One percent is beyond every figure.
          const found = broken(productClass, date, [
            [salt, '1'],
            ['beef', '99'],
          ]).filter((id) => !id.startsWith('eu-1169'));
          expect(found.length, `${productClass}, ${date}, ${salt}`).toBeGreaterThan(0);
        }
      }
    }
  });

  it('go into no fresh sausage, no burger and no mince', () => {
    expect(holding('eu-1333-no-nitrite')).toEqual(NITRITE_FREE_PREPARATIONS);
    expect(holding('eu-853-minced-only-meat')).toEqual(MINCE);
  });

  it('never come together where the row is for nitrate alone', () => {
    expect(holding('eu-1333-only-nitrate')).toEqual(NITRATE_ALONE);
  });

  it('T-04: the new figure of the ion is a fifth less than the old one, not half', () => {
    const nitrite = (grams: string): Weighed[] => [
      ['sodium-nitrite', grams, 'g'],
      ['pork', '1000'],
    ];
    expect(broken('cooked-sausage', BEFORE, nitrite('150'))).toEqual([]);
    expect(broken('cooked-sausage', AFTER, nitrite('150'))).toEqual(['eu-1333-08.3.2-nitrite']);
    expect(broken('cooked-sausage', AFTER, nitrite('119.9'))).toEqual([]);
  });

  it('T-05: every figure on residues needs a test, and never stands for a proof', () => {
    for (const productClass of ['dried-sausage', 'cooked-sausage', ...CURED_PREPARATIONS]) {
      const says = laboratory(productClass, AFTER).map((entry) => entry.says);
      expect(
        says.filter((text) => text.includes('Residual nitrite') && text.includes('45 mg/kg')),
      ).toHaveLength(1);
      expect(laboratory(productClass, BEFORE).filter(({ id }) => id.includes('residual'))).toEqual([]);
    }
    for (const productClass of BY_RESIDUE) {
      const nitrate = (date: string) =>
        laboratory(productClass, date).filter(({ id }) => id.includes('residual-nitrate'));
      expect([nitrate(BEFORE).length, nitrate(AFTER).length], productClass).toEqual([1, 1]);
    }
  });

  it.each([
    ['canned-meat', 25],
    ['spreadable-raw-sausage', 50],
    ['vysocina', 50],
    ['svensk-leverpastej', 50],
    ['filet-de-bacon', 50],
    ['dry-cured-ham', 65],
    ['dry-cured-bacon', 105],
    ['rohschinken', 30],
  ])('residual nitrite of %s is %d mg/kg from 9 October 2025', (name, ppm) => {
    const found = laboratory(name, AFTER).filter(({ id }) => id.endsWith('residual-nitrite'));
    expect(found.map(({ says }) => says)).toEqual([
      `Residual nitrite from all sources is at most ${ppm} mg/kg through the shelf life, as the ion.`,
    ]);
  });

  it.each([
    ['dried-sausage', 90],
    ['dried-sausage-without-nitrite', 110],
    ['rohwurst', 95],
    ['long-cured-chorizo', 95],
    ['saucisson-sec', 95],
    ['filet-de-bacon-without-nitrite', 95],
  ])('residual nitrate of %s above %d mg/kg is to be investigated and no bar to sale', (name, ppm) => {
    const [found] = laboratory(name, AFTER).filter(({ id }) => id.endsWith('residual-nitrate'));
    expect(found?.says).toBe(
      `Residual nitrate from all sources above ${ppm} mg/kg, as the ion, must be investigated.`,
    );
    expect(found?.note).toBe('No bar to sale by itself.');
  });

  it('a cure bounded by its residue keeps the figure in the finished product, whatever dries away', () => {
    const lines: Weighed[] = [
      ['sodium-nitrite', '0.08'],
      ['pork', '1000'],
    ];
    expect(broken('dry-cured-ham', AFTER, lines, DRIED)).toEqual([]);
    expect(broken('dry-cured-ham', AFTER, lines, { ...DRIED, yieldFraction: 0.7 })).toEqual([
      'eu-1333-dry-cured-ham-nitrite',
    ]);
    for (const name of BY_RESIDUE) {
      const notes = standardOf(name, 'eu').limits.filter(({ id }) => id.startsWith(`eu-1333-${name}`));
      for (const { note } of notes) expect(note).toContain('our reading, stricter than the row');
    }
  });
});

describe('other additives', () => {
  it('phosphate goes into every meat product and the listed preparations', () => {
    expect(holding('eu-1333-phosphate')).toEqual([
      'breakfast-sausage',
      'burger-meat',
      'fresh-klobasa',
      'cured-meat-preparation-with-phosphate',
      ...PRODUCTS,
    ]);
    expect(holding('eu-1333-no-phosphate')).toEqual([
      'fresh-sausage',
      'burger',
      'fresh-longaniza',
      'cured-meat-preparation',
    ]);
  });

  it('sulfite goes into breakfast sausage, burger meat and the three fresh sausages of the south', () => {
    expect(holding('eu-1333-sulfite')).toEqual(['breakfast-sausage', 'burger-meat', 'fresh-longaniza']);
    expect(holding('eu-1333-no-sulfite')).toHaveLength(ALL.length - MINCE.length - 3);
  });

  it('burger meat needs its 4 % of vegetables or cereal', () => {
    expect(holding('eu-1333-burger-cereal')).toEqual(['burger-meat']);
    const cereal = (potato: string, soy: string) =>
      broken('burger-meat', AFTER, [
        ['sulfite', '0.05'],
        ['potato', potato],
        ['soy-flour', soy],
        ['beef', '95'],
      ]);
    expect(cereal('4.95', '0')).toEqual([]);
    expect(cereal('0', '4.95')).toEqual(['eu-1333-burger-cereal']);
  });

  it('T-22: sulfite counts as sulfur dioxide, of which metabisulfite gives 0.674', () => {
    expect((2 * molarMass('SO2')) / molarMass('Na2S2O5')).toBeCloseTo(0.674, 3);
    const sulfite = (grams: string) =>
      broken('breakfast-sausage', AFTER, [
        ['sulfite', grams, 'g'],
        ['pork', '1000'],
      ]);
    // Of 0.67: 671 g bring 449.6 g, 673 g bring 450.9 g in 1000.67 kg.
    expect(sulfite('671')).toEqual([]);
    expect(sulfite('673')).toEqual(['eu-1333-sulfite']);
  });

  it('erythorbate goes into meat products alone, and no preparation takes what its list leaves out', () => {
    expect(holding('eu-1333-erythorbic-acid')).toEqual(PRODUCTS);
    expect(holding('eu-1333-no-erythorbic-acid')).toEqual(PREPARATIONS);
    expect(holding('eu-1333-08.2-no-group-one')).toEqual(PREPARATIONS);
    expect(holding('eu-1333-no-antioxidants')).toEqual([...PREPARATIONS, ...PRODUCTS]);
  });

  // Regulation (EC) No 1333/2008, Article 11(3)
  it('count in the food as marketed, but for what may be added during the manufacturing', () => {
    const dried = { ...DRIED, yieldFraction: 0.6 };
    const lines = (material: string, grams: string): Weighed[] => [
      [material, grams, 'g'],
      ['pork', '1000'],
    ];
    expect(broken('dried-sausage', AFTER, lines('erythorbic-acid', '299'), dried)).toEqual([]);
    expect(broken('dried-sausage', AFTER, lines('erythorbic-acid', '301'), dried)).toEqual([
      'eu-1333-erythorbic-acid',
    ]);
    expect(broken('dried-sausage', AFTER, lines('sodium-nitrite', '119.9'), dried)).toEqual([]);
  });

  it('T-07: phosphate counts as pentoxide, not by the weight of the salt', () => {
    const lines: Weighed[] = [
      ['sodium-tripolyphosphate', '8.6'],
      ['pork', '991.4'],
    ];
    expect(broken('cooked-sausage', AFTER, lines, COOKED)).toEqual([]);
  });
});

describe('what a laboratory must show beside residues', () => {
  it('is the microbiology of mince, of preparations and of ready-to-eat products, and the Fo of cans', () => {
    const ids = (name: string) =>
      laboratory(name, AFTER)
        .map(({ id }) => id)
        .filter((id) => !id.includes('residual'));
    for (const name of MINCE) expect(ids(name)).toHaveLength(5);
    for (const name of PREPARATIONS) expect(ids(name)).toHaveLength(4);
    expect(ids('cooked-sausage')).toEqual(['eu-2073-1.3-listeria']);
    expect(ids('canned-meat')).toEqual(['eu-1333-08.3.2-sterilised-fo']);
  });
});

describe('the figures behind the rules', () => {
  // JECFA specifications: 69.00, 85.10, 101.11, 216.13, 198.11, 190.11, 222.33, 104.06; 450(iii) 265.94.
  it.each([
    ['P-01', 'NaNO2', 69, 0.01],
    ['P-02', 'KNO2', 85.1, 0.01],
    ['P-03', 'KNO3', 101.11, 0.01],
    ['P-05', 'NaNO3', 84.995, 0.005],
    ['P-07', 'Na2H2P2O7', 221.94, 0.01],
    ['P-09', 'K5P3O10', 448.42, 0.03],
    ['P-13', 'Na4P2O7', 265.94, 0.05],
    ['P-15', 'C6H7NaO6.H2O', 216.13, 0.02],
    ['P-16', 'C6H7NaO6', 198.11, 0.01],
    ['P-17', 'C6H8O6', 176.13, 0.01],
    ['P-18', 'Na2S2O5', 190.11, 0.03],
    ['P-19', 'K2S2O5', 222.33, 0.03],
    ['P-20', 'NaHSO3', 104.06, 0.02],
  ])('%s: a mole of %s is %d g', (_, formula, grams, tolerance) => {
    expect(Math.abs(molarMass(formula) - grams)).toBeLessThanOrEqual(tolerance);
  });

  it('W-19, T-10: hydroxyproline of 0.45 % is 3.60 % of collagen and 16.65 % of wet connective tissue', () => {
    const collagen = 0.45 * COLLAGEN_PER_HYDROXYPROLINE;
    expect(collagen).toBeCloseTo(3.6, 12);
    expect(collagen * CONNECTIVE_TISSUE_PER_COLLAGEN).toBeCloseTo(16.65, 12);
    expect(CONNECTIVE_TISSUE_PER_COLLAGEN).toBe(4.625);
  });

  it('T-17: salt of a label is sodium times 2.5, which is not the chemistry', () => {
    expect(LABEL_SALT_PER_SODIUM).toBe(2.5);
    expect(1 / SODIUM_PER_SALT).toBeCloseTo(2.542, 3);
    expect(PROTEIN_PER_NITROGEN).toBe(6.25);
  });
});
