import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import type { BatchSheet } from '../../../src/documents/batch-sheet.ts';
import { boxesText } from '../../../src/documents/batch-sheet-text.ts';
import { batchSheetPaper, type SheetPrinted } from '../../../src/documents/pdf/sheet/batch-sheet-paper.ts';
import { proofRows } from '../../../src/documents/proof-rows.ts';
import { SPANISH } from '../../../src/documents/words/spanish.ts';
import { wordsIn } from '../../../src/documents/words/words.ts';
import { drawnTextOfPdf, MISSING_READERS, pagesOfPdf, textOfPdf } from './reading.ts';

/** Sheets as the version before paper stored them: what was kept must print for as long as it is kept. */
const STORED = join(import.meta.dirname, 'stored');
const GOLDEN = join(import.meta.dirname, 'golden');
const sheets = new Map(
  readdirSync(STORED).map((name) => [name.replace('.json', ''), readFileSync(join(STORED, name), 'utf8')]),
);
const hashOf = (json: string) => createHash('sha256').update(json).digest('hex');

function stored(name: string): { sheet: BatchSheet; hash: string } {
  const json = sheets.get(name);
  if (json === undefined) throw new Error(`no stored sheet ${name}`);
  const sheet: BatchSheet = JSON.parse(json);
  // As the record keeps it: without the line breaks that make the file readable here.
  return { sheet, hash: hashOf(JSON.stringify(sheet)) };
}

function printed(more: Partial<SheetPrinted> = {}): SheetPrinted {
  return { paper: 'letter', language: 'en', hash: 'f'.repeat(64), withCost: false, ...more };
}

/** Everything of a sheet that must stand on its paper in one piece. */
function toFind(sheet: BatchSheet, language: 'en' | 'es'): string[] {
  const { told } = wordsIn(language);
  return [
    sheet.product.name,
    sheet.standard.citation,
    ...sheet.pick.flatMap(
      ({ lotId, material, fetch, boxes, location = '', useByDate = '', supplierLot = '' }) => [
        lotId,
        material,
        fetch,
        boxes ? boxesText(boxes, sheet.units) : '',
        location,
        useByDate,
        supplierLot,
      ],
    ),
    ...sheet.weigh.flatMap(({ material, weight, unit, scale, asked }) => [
      material,
      `${weight} ${unit}`,
      scale,
      asked === undefined ? '' : told(asked),
    ]),
    ...sheet.mixing.map(told),
    ...sheet.fillIn.map(told),
    ...sheet.cautions.map(told),
    ...proofRows(sheet).absent,
    ...proofRows(sheet).touched.flatMap(({ line, found, limit, room, rule }) => [
      line.what,
      found,
      limit,
      room,
      line.basis,
      rule,
    ]),
    ...sheet.laboratory.map(({ says }) => says),
    ...sheet.switchedOff.flatMap(({ says, citation, reason, found }) => [says, citation, reason, found]),
    ...sheet.leftOut.flatMap(({ supplyId, because }) => [supplyId, told(because)]),
    ...sheet.howSure,
  ];
}

const unread = MISSING_READERS.filter((name) => name.startsWith('pdf'));

describe.skipIf(unread.length > 0)(
  `the batch sheet on paper (needs ${unread.join(', ') || 'nothing more'})`,
  () => {
    it.each([...sheets.keys()])(
      'says everything that the stored sheet of %s says, in both languages',
      async (name) => {
        const { sheet, hash } = stored(name);
        for (const [language, paper] of [
          ['en', 'letter'],
          ['es', 'a4'],
        ] as const) {
          const pdf = await batchSheetPaper(sheet, printed({ language, paper, hash }));
          const text = await drawnTextOfPdf(pdf);
          for (const words of toFind(sheet, language)) expect(text).toContain(words.replace(/\s+/g, ' '));
          expect(text).toContain(hash);
          expect(text).not.toContain('□');
          const pages = await pagesOfPdf(pdf);
          pages.forEach(({ widthMm, heightMm }, index) => {
            expect(widthMm).toBeCloseTo(paper === 'a4' ? 210 : 215.9, 0);
            expect(heightMm).toBeCloseTo(paper === 'a4' ? 297 : 279.4, 0);
            const count = language === 'en' ? `page ${index + 1} of` : `página ${index + 1} de`;
            expect(text).toContain(`${count} ${pages.length}`);
          });
        }
      },
    );

    it.each([...sheets.keys()])(
      'of %s leaves no word of the floor in English where Spanish is asked',
      async (name) => {
        const { sheet } = stored(name);
        const text = await drawnTextOfPdf(await batchSheetPaper(sheet, printed({ language: 'es' })));
        const words = Object.entries(SPANISH).filter(([english, spanish]) => english !== spanish);
        for (const [english] of words.filter(([phrase]) => phrase.includes(' '))) {
          // Standards and limits speak of the green weight as well, in English.
          if (english !== 'green weight' && english !== 'finished weight')
            expect(text).not.toContain(english);
        }
      },
    );

    it('fits two pages for one load', async () => {
      const { sheet } = stored('ground-beef-1-load');
      for (const paper of ['letter', 'a4'] as const)
        for (const language of ['en', 'es'] as const) {
          const pages = await pagesOfPdf(await batchSheetPaper(sheet, printed({ paper, language })));
          expect(pages.length).toBeLessThanOrEqual(2);
        }
    });

    it('has one load of fifteen lines on two pages: what is weighed on the first, the inspector on the second', async () => {
      const { sheet } = stored('smoked-sausage-4-loads');
      const [first, last] = [sheet.weigh[0], sheet.weigh.at(-1)];
      if (!first || !last) throw new Error('no lines');
      const oneLoad: BatchSheet = {
        ...sheet,
        batch: { ...sheet.batch, loads: 1 },
        weigh: [...sheet.weigh, { ...last, number: sheet.weigh.length + 1, material: 'Celery seed' }].map(
          (line) => (line.lotId === 'CURE-0812' ? { ...line, cure: true } : line),
        ),
      };
      for (const [language, paper, weight] of [
        ['en', 'letter', 'weigh'],
        ['en', 'a4', 'weigh'],
        ['es', 'letter', 'pesar'],
        ['es', 'a4', 'pesar'],
      ] as const) {
        const pdf = await batchSheetPaper(oneLoad, printed({ language, paper }));
        const pages = (await textOfPdf(pdf))
          .replace(/[^\S\f]+/g, ' ')
          .split('\f')
          .filter(Boolean);
        const [page = '', next = '', ...more] = pages;
        expect([more, language, paper]).toEqual([[], language, paper]);
        for (const { material } of oneLoad.weigh) expect(page).toContain(material);
        expect(page).toContain(weight);
        expect(next).not.toContain('Celery seed');
        expect(page).toMatch(/Nitrite is poisonous|El nitrito en exceso/);
        expect(next).toMatch(/FOR THE INSPECTOR|PARA EL INSPECTOR/);
        // The frame of cautions is never torn, and its title not alone.
        expect(next).toMatch(/CAUTIONS|PRECAUCIONES/);
        const { told } = wordsIn(language);
        const text = await drawnTextOfPdf(pdf);
        for (const caution of sheet.cautions) expect(text).toContain(told(caution));
      }
    });

    it('has allergens before anything is fetched even where other cautions come later', async () => {
      const { sheet } = stored('smoked-sausage-4-loads');
      const allergens = 'Holds allergens (milk): run it last or clean before the next product.';
      const long: BatchSheet = {
        ...sheet,
        batch: { ...sheet.batch, loads: 1 },
        cautions: [...sheet.cautions, allergens],
      };
      const [page = ''] = (await textOfPdf(await batchSheetPaper(long, printed({ paper: 'a4' })))).split(
        '\f',
      );
      expect(page.indexOf('Holds allergens')).toBeGreaterThan(0);
      expect(page.indexOf('Holds allergens')).toBeLessThan(page.indexOf('LOTS TO PICK'));
    });

    it('shows no price unless asked', async () => {
      const { sheet } = stored('smoked-sausage-4-loads');
      const withTarget: BatchSheet = {
        ...sheet,
        proof: sheet.proof.map((line, index) =>
          index > 0 ? line : { ...line, unit: 'price per kg', value: 2 },
        ),
      };
      const textOf = async (withCost: boolean) =>
        drawnTextOfPdf(await batchSheetPaper(withTarget, printed({ withCost })));
      expect(await textOf(false)).not.toMatch(/USD|COST/);
      const shown = await textOf(true);
      expect(shown).toContain(`Batch ${sheet.cost.batch.toFixed(2)} USD`);
      for (const note of sheet.cost.notes) expect(shown).toContain(note);
    });

    it('has the caution of the cure beside its line: under it, or above all where the sheet does not tell which', async () => {
      const { sheet } = stored('smoked-sausage-4-loads');
      const caution = 'Nitrite is poisonous in excess';
      const cured = {
        ...sheet,
        weigh: sheet.weigh.map((line) =>
          line.lotId === 'CURE-0812' ? { ...line, cure: true as const } : line,
        ),
      };
      const parts = (await drawnTextOfPdf(await batchSheetPaper(cured, printed()))).split(caution);
      expect(parts).toHaveLength(3);
      expect(parts[1]).toMatch(/CURE-0812(?!.*Paprika)/);
      const untold = (await drawnTextOfPdf(await batchSheetPaper(sheet, printed()))).split(caution);
      expect(untold).toHaveLength(3);
      expect(untold[1]).not.toContain('on Floor scale');
    });

    it('has a box for each line, each load and each step', async () => {
      const { sheet } = stored('smoked-sausage-4-loads');
      const { loads } = sheet.batch;
      const boxes = (await drawnTextOfPdf(await batchSheetPaper(sheet, printed()))).match(/☐/g) ?? [];
      const steps = sheet.mixing.length + (sheet.stuffInto === undefined ? 0 : 1);
      expect(boxes).toHaveLength(
        sheet.pick.length +
          sheet.weigh.length * (1 + loads) +
          steps * loads +
          sheet.grindPlates.length +
          sheet.laboratory.length,
      );
    });

    it('carries 40 lines, 12 loads and names without end', async () => {
      const { sheet } = stored('smoked-sausage-4-loads');
      const [line] = sheet.weigh;
      const [lot] = sheet.pick;
      if (!line || !lot) throw new Error('the stored sheet has no lines');
      const long = `Coarse ground shoulder ${'with everything on it '.repeat(8)}end`;
      const big: BatchSheet = {
        ...sheet,
        product: { ...sheet.product, name: `${long} ${'W'.repeat(150)}` },
        batch: { ...sheet.batch, loads: 12 },
        weigh: Array.from({ length: 40 }, (_, index) => ({
          ...line,
          number: index + 1,
          material: `${index} ${long}`,
          weight: '12345.678',
        })),
        pick: Array.from({ length: 40 }, (_, index) => ({ ...lot, lotId: `L${index}-${'9'.repeat(60)}` })),
      };
      const text = await drawnTextOfPdf(await batchSheetPaper(big, printed()));
      const solid = text.replaceAll(' ', '');
      for (let index = 0; index < 40; index++) {
        expect(text).toContain(`${index} ${long}`);
        expect(solid).toContain(`L${index}-${'9'.repeat(60)}`);
      }
      expect(text.match(/12345\.678/g)).toHaveLength(40);
    });

    it('carries a hundred loads and a caution that is longer than a page', async () => {
      const { sheet } = stored('ground-beef-1-load');
      const lots = Array.from({ length: 700 }, (_, index) => `LOT-${index}`);
      const long = `Fat of ${lots.join(', ')} is the figure of its class, not a test of the lot: test the ground batch.`;
      const many = { ...sheet, cautions: [long, ...sheet.cautions], batch: { ...sheet.batch, loads: 100 } };
      const text = await drawnTextOfPdf(await batchSheetPaper(many, printed()));
      expect(text).toContain(sheet.cautions.at(-1));
      for (const lot of lots) expect(text).toContain(lot);
      expect(text.match(/☐/g)?.length).toBe(
        sheet.pick.length +
          // Three rows of boxes for each line.
          sheet.weigh.length * (3 + 100) +
          sheet.mixing.length * 100 +
          sheet.grindPlates.length,
      );
    });

    it('shows a square for a sign that it lacks, and says so', async () => {
      const { sheet } = stored('ground-beef-1-load');
      const named = (name: string) => ({ ...sheet, product: { ...sheet.product, name } });
      const SIGNS = '≤ ≥ ° µ ½ é ñ ☐ ✓ → ő ß Ž €';
      const known = await drawnTextOfPdf(await batchSheetPaper(named(`Signs ${SIGNS}`), printed()));
      expect(known).toContain(`Signs ${SIGNS}`);
      expect(known).not.toContain('□');
      const lacking = await drawnTextOfPdf(await batchSheetPaper(named('Sausage 香腸 🌭\u0007'), printed()));
      expect(lacking).toContain('Sausage □□ □□');
      expect(lacking).toContain('The sign □ stands for one that this paper cannot show');
    });

    it.each([
      ['ground-beef-1-load', 'en', 'letter'],
      ['smoked-sausage-4-loads', 'es', 'a4'],
      ['bratwurst-allergen', 'es', 'letter'],
    ] as const)('of %s in %s on %s reads as it was read and approved', async (name, language, paper) => {
      const { sheet, hash } = stored(name);
      const pdf = await batchSheetPaper(sheet, printed({ language, paper, hash, batchId: '261125-001' }));
      // Readers of other versions space columns differently.
      const text = (await textOfPdf(pdf)).replace(/[^\S\n\f]+/g, ' ').replace(/\n{2,}/g, '\n');
      const file = join(GOLDEN, `${name}-${language}.txt`);
      if (process.env.UPDATE_GOLDEN) writeFileSync(file, text);
      expect(text).toBe(readFileSync(file, 'utf8'));
    });
  },
);

describe('the bytes of a sheet', () => {
  const zone = process.env.TZ;
  afterEach(() => {
    if (zone === undefined) delete process.env.TZ;
    else process.env.TZ = zone;
  });

  it('are the same twice, and in every time zone', async () => {
    const { sheet } = stored('ground-beef-1-load');
    const found = new Set<string>();
    for (const place of ['UTC', 'America/Chicago', 'Pacific/Kiritimati', 'UTC']) {
      process.env.TZ = place;
      found.add(hashOf(Buffer.from(await batchSheetPaper(sheet, printed())).toString('base64')));
    }
    expect(found.size).toBe(1);
  });
});
