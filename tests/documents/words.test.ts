import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Desk, sheet } from '../../src/api/blending.ts';
import { doJob } from '../../src/api/jobs.ts';
import { ALLERGENS } from '../../src/batch/material.ts';
import type { BatchSheet } from '../../src/documents/batch-sheet.ts';
import { batchSheetText } from '../../src/documents/batch-sheet-text.ts';
import { standingCautions } from '../../src/documents/standing-cautions.ts';
import { plateText } from '../../src/documents/words/plate.ts';
import { SPANISH } from '../../src/documents/words/spanish.ts';
import { SPANISH_SENTENCES } from '../../src/documents/words/spanish-sentences.ts';
import { placesIn } from '../../src/documents/words/teller.ts';
import { wordsIn } from '../../src/documents/words/words.ts';
import { blendCautions, type Cautioned } from '../../src/formulate/cautions.ts';
import { formulate } from '../../src/formulate/formulate.ts';
import { RULE_SETS } from '../../src/standards/all.ts';
import { loadPlantFolder, type PlantData } from '../../src/tables/plant-folder.ts';
import { demoRequest } from '../helpers/demo-requests.ts';
import { ENGINES } from '../helpers/engines.ts';

const REQUESTS = 'demo-data/requests';
const DATA = loadPlantFolder('demo-data', 'ingredient-tables');
const { told, say } = wordsIn('es');
const lb = (value: number) => ({ value, unit: 'lb' });

function deskOf(data: PlantData): Desk {
  return {
    data,
    ruleSets: RULE_SETS,
    today: () => '2026-11-25',
    work: async (name, of) => doJob(name, of, ENGINES),
  };
}

/** What the floor reads of a sheet as data; what the inspector reads and names are left out. */
function floorSentences({ cautions, fillIn, mixing, weigh, leftOut }: BatchSheet): string[] {
  return [
    ...cautions,
    ...fillIn,
    ...mixing,
    ...weigh.flatMap(({ asked }) => asked ?? []),
    // Against a limit: in the words of the rule.
    ...leftOut.flatMap(({ because }) => (because.includes('CFR') ? [] : [because])),
  ];
}

// biome-ignore lint/suspicious/noExplicitAny: products are edited into other products.
const jsonOf = (id: string): any => structuredClone(DATA.products.get(id)?.json);

const withCure = (fraction: number | undefined) => {
  const product = jsonOf('smoked-sausage');
  product.seasoning = product.seasoning.flatMap((line: { materialId: string }) => {
    if (line.materialId !== 'curing-salt-6.25') return [line];
    return fraction === undefined ? [] : [{ ...line, fraction }];
  });
  return { product, batchSize: { total: lb(300) } };
};
const coarse = { ...DATA.plant, scales: DATA.plant.scales.filter(({ unit }) => unit === 'lb') };

const SITUATIONS: [string, unknown, Partial<PlantData>?][] = [
  ...[...DATA.products.keys()].map((product): [string, unknown] => [
    product,
    { product, batchSize: { total: lb(500) } },
  ]),
  ...readdirSync(REQUESTS).map((name): [string, unknown] => [
    name,
    JSON.parse(readFileSync(`${REQUESTS}/${name}`, 'utf8')),
  ]),
  ['a weak cure', withCure(0.001)],
  ['an accelerator without a cure', withCure(undefined)],
  [
    'scales that are too coarse',
    { product: 'smoked-sausage', batchSize: { total: lb(300) } },
    { plant: coarse },
  ],
  [
    'leaner than its label',
    {
      product: { ...jsonOf('ground-beef-80-20'), targets: [{ measure: 'fat', max: 0.06 }] },
      batchSize: { total: lb(100) },
    },
  ],
  [
    'lots on hold',
    { product: 'ground-beef-80-20', batchSize: { total: lb(100) } },
    {
      lots: DATA.lots.map((lot) =>
        lot.materialId.startsWith('pork') ? { ...lot, held: 'broken pallet' } : lot,
      ),
    },
  ],
];

describe('Spanish', () => {
  it.each(SITUATIONS)(
    'has every sentence that the floor reads: %s',
    async (_, body, other?: Partial<PlantData>) => {
      const found = await sheet(deskOf({ ...DATA, ...other }), body);
      const sentences = floorSentences(found);
      expect(sentences.length).toBeGreaterThan(5);
      for (const sentence of sentences) expect(told(sentence), sentence).not.toBe(sentence);
      const text = batchSheetText(found, 'es');
      for (const sentence of sentences) expect(text).not.toContain(sentence);
      for (const title of ['LOTS TO PICK', 'WEIGH INTO', 'GRIND AND MIX', 'FILL IN', 'CAUTIONS'])
        expect(text).not.toContain(title);
    },
  );

  it('has every caution of a blend, the rare ones as well', async () => {
    const formulation = await formulate(
      demoRequest({ product: 'smoked-sausage', batchSize: { total: lb(300) } }),
    );
    if (formulation.outcome !== 'blend') throw new Error('no blend');
    const { blend } = formulation;
    const [pork, beef, ...rest] = blend.lines;
    const [check] = blend.checks;
    if (!pork || !beef || !check) throw new Error('no lines');
    const untested = (
      { supply, ...line }: typeof pork,
      material: object,
      fat: object | undefined = supply.fat,
    ) => {
      const { measuredFat: _, ...lot } = supply.lot ?? {};
      return { ...line, supply: { ...supply, lot, material: { ...supply.material, ...material }, fat } };
    };
    const cautions = blendCautions({
      product: DATA.products.get('smoked-sausage')?.product,
      ...blend,
      greenWeightKg: blend.greenWeightKg,
      lines: [
        untested(pork, { kind: 'rework', madeOf: [{ fraction: '-0.1' }] }),
        untested(pork, {}),
        untested(beef, {}, { ...beef.supply.fat, from: 'lots of the supplier', says: 'tests of its trim' }),
        ...rest,
      ],
      checks: [
        {
          ...check,
          limit: { ...check.limit, read: 'from memory', authority: 'law', bound: 1 },
          numeratorKg: 1,
        },
      ],
      switchedOff: [{ limit: check.limit, reason: 'under a waiver' }],
      missing: { says: 'all ingredients', askedKg: 100, missingKg: 10 },
    } as unknown as Cautioned);
    for (const start of [
      /^Fat of .* was not tested/,
      /^Fat of .* is worked out from/,
      /^Fat of .* is the figure of its class/,
      /^Rework goes in/,
      /^The declared yield/,
      /^The limits on these/,
      /^Switched off by the house/,
      /^Figures of the finished/,
      /^The batch is .* kg short/,
    ])
      expect(cautions.join('\n')).toMatch(new RegExp(start, 'm'));
    for (const caution of cautions) expect(told(caution), caution).not.toBe(caution);
  });

  it('has the cautions of dried product, which defer to the process authority', () => {
    const product = DATA.products.get('smoked-sausage')?.product;
    if (!product) throw new Error('no product');
    const cautions = standingCautions({ ...product, process: { ...product.process, cooking: 'dried' } }, []);
    expect(cautions[0]).toMatch(/trichinae .* follow the HACCP plan .* sets no limit of pH/);
    for (const caution of cautions) expect(told(caution), caution).not.toBe(caution);
  });

  it('fills the same places as English', () => {
    const all = [...Object.entries(SPANISH), ...SPANISH_SENTENCES];
    for (const [english, spanish] of all) {
      expect(placesIn(spanish).sort(), english).toEqual(placesIn(english).sort());
    }
  });

  it('finds each of its sentences again, whatever fills the places', () => {
    for (const [english, spanish] of SPANISH_SENTENCES) {
      const filled = (text: string) =>
        placesIn(english).reduce(
          (so, name, at) => so.replace(`{${name}}`, name === 'count' ? `7${at}` : `7${at}.5 (a-b) $&`),
          text,
        );
      expect(told(filled(english)), english).toBe(filled(spanish));
    }
  });

  it('has each allergen, and lists them in Spanish', () => {
    for (const allergen of ALLERGENS) expect(Object.hasOwn(SPANISH, allergen), allergen).toBe(true);
    expect(told('Holds allergens (milk, wheat): run it last or clean before the next product.')).toBe(
      'Contiene alérgenos (leche, trigo): prodúzcalo al final o limpie el equipo antes del siguiente producto.',
    );
  });

  it('leaves names alone that look like words of the catalog', () => {
    const caution =
      'Fat of milk, beef is the figure of its class, not a test of the lot: test the ground batch.';
    expect(told(caution)).toContain('La grasa de milk, beef es la cifra de su clase');
  });

  it('leaves a sentence of the plant as the plant wrote it', () => {
    for (const own of ['Tumble for 20 minutes', 'Mezclar 2 minutos', '', 'toString', '{percent} %'])
      expect(told(own)).toBe(own);
  });

  it('has plates in inches, and leaves others alone', () => {
    expect(['3/8 in', '4.5 mm', 'put the ice in'].map((plate) => plateText(plate, say))).toEqual([
      '3/8 pulg.',
      '4.5 mm',
      'put the ice in',
    ]);
  });
});

describe('English', () => {
  it('stays as it is', () => {
    const english = wordsIn('en');
    expect(english.told('on hold: smells')).toBe('on hold: smells');
    expect(english.say('page {page} of {pages}', { page: 1, pages: 2 })).toBe('page 1 of 2');
  });
});
