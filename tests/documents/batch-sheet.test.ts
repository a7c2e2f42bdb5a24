import { describe, expect, it } from 'vitest';
import { type Desk, label, sheet } from '../../src/api/blending.ts';
import { doJob } from '../../src/api/jobs.ts';
import { batchSheetText } from '../../src/documents/batch-sheet-text.ts';
import { labelText } from '../../src/documents/label-text.ts';
import { RULE_SETS } from '../../src/standards/all.ts';
import { loadPlantFolder, type PlantData } from '../../src/tables/plant-folder.ts';
import { ENGINES } from '../helpers/engines.ts';

const DATA = loadPlantFolder('demo-data', 'ingredient-tables');

function deskOf(data: PlantData): Desk {
  return {
    data,
    ruleSets: RULE_SETS,
    today: () => '2026-11-25',
    work: async (name, of) => doJob(name, of, ENGINES),
  };
}
const DESK = deskOf(DATA);
const lb = (value: number) => ({ value, unit: 'lb' });
const jsonOf = (id: string) => structuredClone(DATA.products.get(id)?.json) as Record<string, never>;

interface SeasoningJson {
  materialId: string;
  fraction?: number;
}

/** A demo product with the rate of one of its seasoning lines changed. */
function withRate(id: string, materialId: string, fraction: number) {
  const product = jsonOf(id) as unknown as { seasoning: SeasoningJson[] };
  const seasoning = product.seasoning.map((line) =>
    line.materialId === materialId ? { ...line, fraction } : line,
  );
  return { ...product, seasoning };
}

describe('the batch sheet', () => {
  it('adds up: the lines of a load make the load, the loads make the batch', async () => {
    for (const product of DATA.products.keys()) {
      const { batch, weigh } = await sheet(DESK, { product, batchSize: { total: lb(500) } });
      const loadKg = weigh.reduce((sum, { perLoad }) => sum + perLoad.kg, 0);
      expect(loadKg, product).toBeCloseTo(batch.load.kg, 9);
      expect(batch.load.kg * batch.loads, product).toBeCloseTo(batch.total.kg, 9);
    }
  });

  it.each([
    ['fresh-pork-sausage', 50],
    ['italian-sausage', 777],
    ['bratwurst', 400],
    ['hamburger-patties', 601],
    ['smoked-sausage', 123],
  ])('of %s has weight for all %i pieces asked for', async (product, pieces) => {
    const { batch } = await sheet(DESK, { product, batchSize: { pieces } });
    expect(batch.pieces).toBeGreaterThanOrEqual(pieces);
    expect(batch.pieces).toBeLessThanOrEqual(pieces + 2);
  });

  it('of a finished weight does not fall short of it', async () => {
    const { batch } = await sheet(DESK, { product: 'smoked-sausage', batchSize: { finished: lb(300) } });
    expect(batch.finished.lb).toBeGreaterThanOrEqual(300);
    expect(batch.finished.lb).toBeLessThan(300.3);
  });

  it('says which lots were left out and why', async () => {
    const text = batchSheetText(await sheet(DESK, { product: 'bratwurst', batchSize: { total: lb(100) } }));
    expect(text).toContain('P72-1110  Pork trim 72 % lean: past its use-by date 2026-11-22');
  });

  it('says what a fixed line was asked to be and what it is on the scales', async () => {
    const { weigh } = await sheet(DESK, { product: 'smoked-sausage', batchSize: { total: lb(500) } });
    const cure = weigh.find(({ lotId }) => lotId === 'CURE-0812');
    expect(cure?.asked).toMatch(/^0\.24 % of green weight \(weighed 0\.2[34]\d\d %\)$/);
  });

  it('shows two lots of one seasoning as one rate', async () => {
    const cure = DATA.lots.find(({ id }) => id === 'CURE-0812');
    if (!cure) throw new Error('the demo plant has no cure');
    const lots = [
      ...DATA.lots.filter((lot) => lot !== cure),
      { ...cure, id: 'CURE-A', onHandKg: 0.2 },
      { ...cure, id: 'CURE-B', costPerKg: cure.costPerKg * 2 },
    ];
    const { weigh } = await sheet(deskOf({ ...DATA, lots }), {
      product: 'smoked-sausage',
      batchSize: { total: lb(300) },
    });
    const cures = weigh.filter(({ lotId }) => lotId?.startsWith('CURE'));
    expect(cures.map(({ lotId }) => lotId).sort()).toEqual(['CURE-A', 'CURE-B']);
    for (const { asked, lotId } of cures) {
      expect(asked).toContain(`together with ${lotId === 'CURE-A' ? 'CURE-B' : 'CURE-A'}`);
    }
  });

  it('says in how many drafts a line is weighed that its scale cannot carry', async () => {
    const plant = { ...DATA.plant, mixerCapacityKg: 900 };
    const batch = await sheet(deskOf({ ...DATA, plant }), {
      product: 'fresh-pork-sausage',
      batchSize: { total: lb(1500) },
    });
    const heavy = batch.weigh.filter(({ perLoad }) => perLoad.lb > 500);
    expect(heavy.length).toBeGreaterThan(0);
    for (const { drafts, perLoad } of heavy) expect(drafts).toBe(Math.ceil(perLoad.lb / 500));
    expect(batchSheetText(batch)).toMatch(/Floor scale, in \d drafts/);
  });

  it('names the casing to stuff into', async () => {
    const batch = await sheet(DESK, { product: 'breakfast-sausage-links', batchSize: { total: lb(100) } });
    expect(batch.stuffInto).toBe(DATA.materials.get('sheep-casing')?.name);
    expect(
      labelText(await label(DESK, { product: 'breakfast-sausage-links', batchSize: { total: lb(100) } })),
    ).toContain('In sheep casing');
  });

  it('says that a frozen lot must be tempered', async () => {
    const text = batchSheetText(
      await sheet(DESK, { product: 'smoked-sausage', batchSize: { total: lb(500) } }),
    );
    expect(text).toMatch(/B50-0306 .*frozen: temper first/);
  });

  it('shows added water below nothing as none', async () => {
    const text = batchSheetText(
      await sheet(DESK, { product: 'smoked-sausage', batchSize: { total: lb(500) } }),
    );
    expect(text).toMatch(/added water.*none \(-\d/);
  });

  it('says which text of the rules was read', async () => {
    const text = batchSheetText(
      await sheet(DESK, { product: 'ground-beef-80-20', batchSize: { total: lb(100) } }),
    );
    expect(text).toContain('2015 annual edition');
  });
});

describe('the cautions of a sheet', () => {
  const cautionsOf = async (body: unknown, data = DATA) =>
    (await sheet(deskOf(data), body)).cautions.join('\n');

  it('warn of nitrite, whatever the thing that carries it is called', async () => {
    const premix = {
      id: 'my-premix',
      name: 'Premix',
      declaredName: 'seasoning',
      kind: 'flavoring',
      composition: { waterFraction: 0, fatFraction: 0, proteinFraction: 0 },
      substances: { 'sodium nitrite': 0.0075 },
    };
    const product = jsonOf('smoked-sausage') as unknown as { seasoning: SeasoningJson[] };
    const seasoning = product.seasoning.map((line) =>
      line.materialId === 'curing-salt-6.25' ? { ...line, materialId: 'my-premix', fraction: 0.02 } : line,
    );
    const text = await cautionsOf({
      product: { ...product, seasoning },
      batchSize: { total: lb(300) },
      materials: [premix],
      prices: [{ materialId: 'my-premix', cost: { amount: 2, per: 'lb' } }],
    });
    expect(text).toContain('Nitrite is poisonous in excess');
  });

  it('warn of a cure below what a refrigerated product should have', async () => {
    const weak = {
      product: withRate('smoked-sausage', 'curing-salt-6.25', 0.001),
      batchSize: { total: lb(300) },
    };
    expect(await cautionsOf(weak)).toMatch(/Ingoing nitrite is 62\.\d ppm.*at least 120/);
    expect(await cautionsOf({ product: 'smoked-sausage', batchSize: { total: lb(300) } })).not.toContain(
      'at least 120',
    );
  });

  it('warn of an accelerator without a cure', async () => {
    const product = jsonOf('smoked-sausage') as unknown as { seasoning: SeasoningJson[] };
    const seasoning = product.seasoning.filter(({ materialId }) => materialId !== 'curing-salt-6.25');
    expect(await cautionsOf({ product: { ...product, seasoning }, batchSize: { total: lb(300) } })).toContain(
      'accelerator goes in without a cure',
    );
  });

  it('warn of a single allergen', async () => {
    expect(await cautionsOf({ product: 'bratwurst', batchSize: { total: lb(100) } })).toContain(
      'Holds allergens (milk)',
    );
  });

  it('warn of a batch far leaner than its label', async () => {
    const product = { ...jsonOf('ground-beef-80-20'), targets: [{ measure: 'fat', max: 0.06 }] };
    expect(await cautionsOf({ product, batchSize: { total: lb(100) } })).toMatch(
      /The label says 20 % fat and the batch has [56]\.\d %/,
    );
  });

  it('warn of a line that its scale can hardly show', async () => {
    const scales = DATA.plant.scales.filter(({ unit }) => unit === 'lb');
    const text = await cautionsOf(
      { product: 'smoked-sausage', batchSize: { total: lb(300) } },
      { ...DATA, plant: { ...DATA.plant, scales } },
    );
    expect(text).toMatch(/only \d+ divisions of the Bench scale/);
  });
});

describe('a batch that cannot be made', () => {
  it('names the lots that the largest batch uses up', async () => {
    await expect(
      sheet(DESK, { product: 'ground-beef-90-10', batchSize: { total: lb(9000) } }),
    ).rejects.toThrow(/at most [\d.]+ lb .*\(it uses up [A-Z0-9-]+/);
  });

  it('says to lower the rate of the cure, not to receive other meat', async () => {
    await expect(
      sheet(DESK, {
        product: withRate('smoked-sausage', 'curing-salt-6.25', 0.0026),
        batchSize: { total: lb(300) },
      }),
    ).rejects.toThrow(/Lower the rate of Curing salt 6\.25 % nitrite to about 96 % of what it is/);
  });

  it('blames the target of the house when it fights the law', async () => {
    const product = {
      ...jsonOf('ground-beef-80-20'),
      targets: [{ measure: 'fat', min: 0.35 }],
      label: { storage: 'keep frozen' },
    };
    await expect(sheet(DESK, { product, batchSize: { total: lb(300) } })).rejects.toThrow(
      /Target: fat of the finished product is at least 35 %.*Change this target/,
    );
  });
});
