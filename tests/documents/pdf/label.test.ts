import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { PAPER_MM } from '../../../src/documents/pdf/document.ts';
import { packLabelPdf } from '../../../src/documents/pdf/label/label.ts';
import { cellsOf } from '../../../src/documents/pdf/label/label-sheet.ts';
import { LABEL_STOCKS, type LabelStock, labelStock } from '../../../src/documents/pdf/label/label-stock.ts';
import { LabelRefused } from '../../../src/labels/packs/label-refused.ts';
import type { PackLabel } from '../../../src/labels/packs/pack-label.ts';
import {
  beefBrick,
  CANADA_PANEL,
  cookedLinks,
  EU_PANEL,
  links,
  metricSausage,
  smallPack,
  US_PANEL,
  VARIED_PANEL,
  weighedTray,
} from './pack-labels.ts';
import { drawnTextOfPdf, MISSING_READERS, pagesOfPdf, textOfPdf, wordsOfPdf } from './reading.ts';

const stock = (id: string) => labelStock(id) as LabelStock;
const on = (label: PackLabel, id: string, more: object = {}) =>
  packLabelPdf(label, { stock: stock(id), copies: 1, ...more });

const LABELS: readonly (readonly [name: string, label: PackLabel, stock: string])[] = [
  ['ground beef brick', beefBrick(), 'roll-102x76'],
  ['weighed tray with a nutrition panel', { ...weighedTray(), nutrition: VARIED_PANEL }, 'roll-102x152'],
  ['links', links(), 'roll-102x102'],
  ['cooked links on small stock', cookedLinks(), 'roll-76x51'],
  ['sausage of the Union', { ...metricSausage(), nutrition: EU_PANEL }, 'roll-102x102'],
  ['sausage of Canada', { ...metricSausage('ca'), nutrition: CANADA_PANEL }, 'roll-102x127'],
  ['little mince', smallPack(), 'roll-58x40'],
];

const missing = MISSING_READERS.length > 0 ? ` (needs ${MISSING_READERS.join(', ')})` : '';

describe.skipIf(MISSING_READERS.length > 0)(`what stands on a label${missing}`, () => {
  test.each(LABELS)('%s, as a person read it', async (name, label, id) => {
    const file = join(import.meta.dirname, 'golden', `label-${name.replaceAll(' ', '-')}.txt`);
    const text = await textOfPdf(await on(label, id));
    await expect(text).toMatchFileSnapshot(file);
  });

  test.each(LABELS)('%s: nothing is lost, cut off or printed over', async (_, label, id) => {
    await holdsAll(label, id);
  });

  test('the golden texts are there to be compared with', () => {
    const text = readFileSync(join(import.meta.dirname, 'golden/label-ground-beef-brick.txt'), 'utf8');
    for (const part of ['Ground Beef', '80% lean / 20% fat', 'NET WT 1 LB (453g)', 'EST. 00000']) {
      expect(text).toContain(part);
    }
  });

  test('what stands out in the statement stays in its place', async () => {
    const ingredients = [
      { text: 'Ingredients: Pork, rusk (', emphasized: false },
      { text: 'wheat', emphasized: true },
      { text: ' flour, salt), ', emphasized: false },
      { text: 'milk', emphasized: true },
      { text: '.', emphasized: false },
    ];
    const text = await drawnTextOfPdf(await on({ ...smallPack(), ingredients }, 'roll-102x76'));
    expect(text).toContain('Ingredients: Pork, rusk (wheat flour, salt), milk.');
  });

  test('whatever the plant writes is printed whole, or refused', async () => {
    const word = fc.constantFrom(
      'salt',
      'monosodium',
      'glutamate,',
      'paprika',
      'extractives',
      'water,',
      'dextrose',
    );
    const text = (most: number) =>
      fc.array(word, { minLength: 1, maxLength: most }).map((words) => words.join(' '));
    let printed = 0;
    await fc.assert(
      fc.asyncProperty(
        text(8),
        text(90),
        fc.array(text(6), { maxLength: 3 }),
        fc.constantFrom('roll-102x152', 'roll-102x76', 'letter-102x51', 'roll-76x51'),
        async (name, statement, qualifiers, id) => {
          const label = {
            ...cookedLinks(),
            name,
            qualifiers,
            ingredients: [{ text: `Ingredients: ${statement}.`, emphasized: false }],
          };
          try {
            await holdsAll(label, id);
            printed += 1;
          } catch (error) {
            if (!(error instanceof LabelRefused)) throw error;
            expect(error.message).toContain(`does not fit on ${id}`);
          }
        },
      ),
      { numRuns: 24, seed: 3 },
    );
    expect(printed).toBeGreaterThan(6);
  });

  const holdsAll = async (label: PackLabel, id: string) => {
    const pdf = await on(label, id);
    const [words, text] = await Promise.all([wordsOfPdf(pdf), drawnTextOfPdf(pdf)]);
    const { ingredients, allergens, leanPair, netWeight, lotId, dates, price, safeHandling } = label;
    const said = [
      label.name,
      leanPair,
      ingredients.map((run) => run.text).join(''),
      allergens,
      label.plant.address.join(', '),
      `Lot ${lotId}`,
      ...dates.map((date) => `${date.says} ${date.text}`),
      price?.total,
      safeHandling?.rationale,
      ...(safeHandling?.statements ?? []).map((one) => one.text),
      ...(label.nutrition?.rows ?? []).map((row) => `${row.label} ${row.amount}`.trim()),
    ];
    for (const part of said) if (part) expect(text).toContain(part);
    expect(netWeight.text.split(/ (?=\()/).every((part) => text.includes(part))).toBe(true);
    if (!stock(id).sheet) isInside(words, stock(id), label);
    for (const [at, one] of words.entries()) {
      for (const other of words.slice(at + 1)) {
        const wide = Math.min(one.xMax, other.xMax) - Math.max(one.xMin, other.xMin);
        const high = Math.min(one.yMax, other.yMax) - Math.max(one.yMin, other.yMin);
        // Boxes of words reach above and below their letters; letters themselves do not meet.
        const isOver = wide > 0.3 && high > 0.35 * Math.min(one.yMax - one.yMin, other.yMax - other.yMin);
        expect(isOver ? `"${one.text}" over "${other.text}"` : '').toBe('');
      }
    }
  };

  const isInside = (
    words: Awaited<ReturnType<typeof wordsOfPdf>>,
    { widthMm, heightMm }: LabelStock,
    label: PackLabel,
  ) => {
    for (const { xMin, xMax, yMin, yMax } of words) {
      expect(Math.min(xMin, yMin)).toBeGreaterThanOrEqual(0);
      expect(xMax).toBeLessThanOrEqual(widthMm);
      expect(yMax).toBeLessThanOrEqual(heightMm);
    }
    // The bottom 30 % of the panel (9 CFR 317.2(h)(3)).
    const net = words.filter(({ text }) => text === 'NET').at(-1);
    expect(net?.yMin, label.netWeight.text).toBeGreaterThanOrEqual(heightMm * 0.7);
  };

  test.each(LABEL_STOCKS.map((one) => [one.id, one] as const))(
    'pages on %s are exact to 0.1 mm',
    async (_, one) => {
      const pages = await pagesOfPdf(await packLabelPdf(smallPack(), { stock: one, copies: 2 }));
      const page = one.sheet ? PAPER_MM[one.sheet.paper] : one;
      expect(pages).toHaveLength(one.sheet ? 1 : 2);
      for (const { widthMm, heightMm } of pages) {
        expect(Math.abs(widthMm - page.widthMm)).toBeLessThan(0.1);
        expect(Math.abs(heightMm - page.heightMm)).toBeLessThan(0.1);
      }
    },
  );

  test('a sheet that was begun goes on where it says, and further sheets follow', async () => {
    const pdf = await on(smallPack(), 'letter-102x51', { copies: 10, start: 9 });
    expect(await pagesOfPdf(pdf)).toHaveLength(2);
    const first = await wordsOfPdf(pdf);
    const names = first.filter(({ text }) => text === 'Mince');
    expect(names).toHaveLength(2);
    const [, , , , , , , , ninth] = cellsOf(stock('letter-102x51'));
    for (const { yMin } of names) expect(yMin).toBeGreaterThan(ninth?.yMm ?? Number.NaN);
  });
});

test('the same label gives the same bytes', async () => {
  const [, label, id] = LABELS[1] as (typeof LABELS)[number];
  const [one, two] = [await on(label, id, { copies: 2 }), await on(label, id, { copies: 2 })];
  expect(Buffer.compare(Buffer.from(one), Buffer.from(two))).toBe(0);
});

describe.skipIf(MISSING_READERS.length > 0)(`a label in two parts${missing}`, () => {
  const label = { ...weighedTray(), nutrition: US_PANEL };

  test('has on its front what the principal panel must have, and nothing of the back', async () => {
    // 9 CFR 317.2(c), (h), (i), (k), secondary.
    const text = await drawnTextOfPdf(await on(label, 'roll-76x51', { part: 'front' }));
    const front = [
      label.name,
      label.leanPair,
      label.storage,
      label.netWeight.text,
      label.price?.total,
      label.tare,
      `Lot ${label.lotId}`,
      `EST. ${label.plant.establishment}`,
      ...label.dates.map((date) => `${date.says} ${date.text}`),
    ];
    for (const part of front) expect(text).toContain(part);
    expect(text).not.toMatch(/Nutrition Facts|Safe Handling|Example Road/);
  });

  test('has on its back the rest, with the product and the lot that it belongs to', async () => {
    const sausage = { ...links(), nutrition: US_PANEL };
    const text = await drawnTextOfPdf(await on(sausage, 'roll-102x127', { part: 'back' }));
    const back = [
      `${sausage.name} · Lot ${sausage.lotId}`,
      sausage.ingredients.map((run) => run.text).join(''),
      sausage.allergens,
      sausage.plant.address.join(', '),
      'Nutrition Facts',
      sausage.safeHandling?.rationale,
    ];
    for (const part of back) expect(text).toContain(part);
    expect(text).not.toMatch(/NET WT|place of the inspection legend|Use by/);
  });

  test.each([1, 2, 4].flatMap((at) => LABELS.slice(at, at + 1)))(
    '%s: front and back together say all that the whole says',
    async (_, one) => {
      const wordsOn = async (part: 'whole' | 'front' | 'back') =>
        (await drawnTextOfPdf(await on(one, 'roll-102x152', { part }))).split(' ').sort();
      const [whole, front, back] = [await wordsOn('whole'), await wordsOn('front'), await wordsOn('back')];
      const identity = `${one.name} · Lot ${one.lotId}`.split(' ');
      const both = [...front, ...back].filter(Boolean).sort();
      expect(both).toEqual([...whole, ...identity].filter(Boolean).sort());
    },
  );
});

test.skipIf(MISSING_READERS.length > 0)(
  'the panel is low only where there is no room for the usual one, and then says the same',
  async () => {
    // Vitamins side by side and the footnote at the right: 9 CFR 317.309(d)(8), (d)(11)(i), 2015 edition.
    const label = { ...beefBrick(), nutrition: US_PANEL };
    const back = (id: string) => on(label, id, { part: 'back' });
    const usual = await drawnTextOfPdf(await back('roll-102x127'));
    const low = await drawnTextOfPdf(await back('roll-102x102'));
    expect(usual).not.toContain('•');
    expect(low).toContain('Vitamin D 0mcg 0% • Calcium 20mg 2% • Iron 2.2mg 10% • Potassium 300mg 6%');
    const words = (text: string) => text.replaceAll('• ', '').split(' ').filter(Boolean).sort();
    expect(words(low)).toEqual(words(usual));
  },
);

test('a label that is too large for one is refused with where its parts fit, a part with where it does', async () => {
  const label = { ...weighedTray(), nutrition: US_PANEL };
  await expect(on(label, 'roll-102x76')).rejects.toThrow(
    /In two labels: part front fits on .*roll-102x76, roll-76x51.*; part back on roll-102x152, roll-102x127/,
  );
  await expect(on(label, 'roll-76x51', { part: 'back' })).rejects.toThrow(
    /The back label of .* does not fit on roll-76x51 .*It fits on roll-102x152, roll-102x127/,
  );
});

test('what does not fit is refused with the stocks on which it would', async () => {
  const label = { ...beefBrick(), nutrition: US_PANEL };
  await expect(on(label, 'roll-76x51')).rejects.toThrow(
    /does not fit on roll-76x51 \(76\.2 × 50\.8 mm\).*1\.6 mm.*It fits on roll-102x152, roll-102x127, letter-102x127, a4-105x148\. In two/,
  );
  await expect(on(label, 'roll-76x51')).rejects.toBeInstanceOf(LabelRefused);
  const endless = { ...label, ingredients: [{ text: 'salt and pepper '.repeat(400), emphasized: false }] };
  await expect(on(endless, 'roll-102x152')).rejects.toThrow(/fits on no stock here/);
});

test('stocks have ids of their own, and every label of a sheet lies on it and beside the others', () => {
  expect(new Set(LABEL_STOCKS.map(({ id }) => id)).size).toBe(LABEL_STOCKS.length);
  for (const one of LABEL_STOCKS) {
    if (!one.sheet) continue;
    const { pitchXMm, pitchYMm, paper } = one.sheet;
    expect(pitchXMm).toBeGreaterThanOrEqual(one.widthMm);
    expect(pitchYMm).toBeGreaterThanOrEqual(one.heightMm);
    for (const { xMm, yMm } of cellsOf(one)) {
      expect(xMm + one.widthMm).toBeLessThanOrEqual(PAPER_MM[paper].widthMm + 1e-9);
      expect(yMm + one.heightMm).toBeLessThanOrEqual(PAPER_MM[paper].heightMm + 1e-9);
    }
  }
});
