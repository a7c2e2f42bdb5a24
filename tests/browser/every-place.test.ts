import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { passwordOf, QUICK } from '../api/access/people.ts';
import { lb, mixerAt } from '../api/batches/mixer.ts';
import type { Json } from '../api/running.ts';
import { expectAccessible, expectTouchable, inBrowser, look, type Opening } from './browser.ts';
import { englishOn } from './english-on.ts';

/**
 * Every place of the page once in each language: what axe finds, what is too small to tap, headings, sideways scrolling,
 * complaints of the console, and English that a Spanish reader would meet. The flows are walked in the other files.
 */

interface Place {
  /** After '#/'. */
  readonly at: string;
  /** What is there once the place can be read. */
  readonly shows?: string;
  /** Opens what has no address: a window, a part that is folded away. */
  readonly opens?: RegExp;
}

/** What people write stays as they wrote it; here it is Spanish, so that the English of the page shows. */
const WRITTEN = 'solo para ver';

interface Work {
  readonly planned: string;
  readonly begun: string;
  readonly tested: string;
  readonly finished: string;
  readonly closed: string;
  readonly lot: string;
  readonly record: number;
  readonly running: string;
  readonly ended: string;
}

/** Batches in every state, a sealed record with its correction, drills, logs, a lot with a past. */
async function dayOfWork(address: string): Promise<Work> {
  const { done, get, plan, weighAll, weighed } = mixerAt(address);
  await done('/cleanings', { equipment: ['grinder'], what: 'cleaned and sanitized' });
  const closed = await weighed('ground-beef-80-20', 60);
  await done(`/batches/${closed.id}/finish`, {
    output: { weight: lb('59') },
    temperatures: [{ what: 'after mixing', value: 36, unit: 'F' }],
  });
  await done(`/batches/${closed.id}/packs`, { packs: [{ count: 20, net: { value: '2', unit: 'lb' } }] });
  const shipped = { lotId: `${closed.id}-P1`, packs: 5 };
  await done('/shipments', { to: 'Corner grocery', document: 'D-1', lines: [shipped] });
  await done(`/lots/${closed.id}-P1/movements`, { kind: 'sold', packs: 1 });
  await done(`/batches/${closed.id}/closing`, {});
  const [{ seq }] = (await get('/records?kind=batch')).items;
  await done(`/records/${seq}/corrections`, { corrects: 'nota: A, no B', reason: WRITTEN });

  const [{ lotId }] = closed.lines;
  const ended = await done('/recall-drills', { lotId, reason: WRITTEN });
  await done(`/recall-drills/${ended.id}/finish`, { found: [] });
  const running = await done('/recall-drills', { lotId, reason: WRITTEN });

  const planned = await plan('smoked-sausage', 50);
  const begun = await weighAll(await plan('ground-beef-80-20', 500), [1]);
  const tested = await weighed('ground-beef-80-20', 40);
  await done(`/batches/${tested.id}/tests`, { fatFraction: 0.23, method: 'NIR', load: 1 });
  const finished = await weighed('bratwurst', 40);
  await done(`/batches/${finished.id}/finish`, { output: { weight: lb(finished.weighed.lb.toFixed(1)) } });
  const cancelled = await plan('ground-beef-80-20', 20);
  await done(`/batches/${cancelled.id}/cancellation`, { reason: WRITTEN });
  const movement = { kind: 'adjusted', counted: lb('990'), reason: WRITTEN };
  await mixerAt(address).post('/lots/B73-1120/movements', movement);
  return {
    planned: planned.id,
    begun: begun.id,
    tested: tested.id,
    finished: finished.id,
    closed: closed.id,
    lot: lotId,
    record: seq,
    running: running.id,
    ended: ended.id,
  };
}

/** What the plant and its tables call things: it stays as it is in every language. */
async function namesGiven(address: string): Promise<readonly string[]> {
  const { get } = mixerAt(address);
  const [products, materials, { scales }, { own }] = await Promise.all(
    ['/products?limit=500', '/materials?limit=500', '/plant', '/house-rules'].map(get),
  );
  return [
    ...products.items.flatMap(({ name, meatBlock }: Json) => [
      name,
      ...meatBlock.map((part: Json) => part.name),
    ]),
    ...materials.items.flatMap(({ id, name }: Json) => [id, name]),
    ...scales.map(({ name }: Json) => name),
    ...own.map(({ says }: Json) => says),
  ];
}

/** A plant is begun anew only while nothing is booked. */
const FIRST: readonly Place[] = [
  { at: 'start' },
  { at: 'start/plant' },
  { at: 'start/scales' },
  { at: 'start/people' },
  { at: 'start/with', shows: '.start-recipes' },
];

const placesOf = (work: Work): readonly Place[] => [
  { at: 'start/plant' },
  { at: 'blend', shows: '.blend-curve', opens: /^(How good is it|¿Qué tan buena es)/ },
  { at: 'blend', shows: '.blend-prices', opens: /(What if .* cost…|¿Y si .* costara…)/ },
  { at: 'blend/use-up' },

  { at: 'batches' },
  { at: `batches/${work.planned}` },
  { at: `batches/${work.planned}`, opens: /^(Cancel this batch|Cancelar esta tanda)/ },
  { at: `batches/${work.planned}/weigh`, shows: '.weigh-target' },
  { at: `batches/${work.planned}/weigh`, opens: /^(Another lot|Otro lote)$/ },
  { at: `batches/${work.planned}/test` },
  { at: `batches/${work.begun}/weigh?load=2`, shows: '.weigh-target' },
  { at: `batches/${work.tested}/test` },
  { at: `batches/${work.tested}/finish` },
  { at: `batches/${work.tested}` },
  { at: `batches/${work.finished}/finish` },
  { at: `batches/${work.closed}` },
  { at: 'batches/NONE' },

  { at: 'stock' },
  { at: 'stock/receive' },
  { at: 'stock/ship' },
  { at: 'stock/materials' },
  { at: 'stock/prices' },
  { at: 'stock/sheets' },
  { at: 'stock/B73-1120' },
  { at: `stock/${work.closed}-P1` },
  ...['change', 'adjusted', 'shipped', 'test', 'hold'].map((act) => ({ at: `stock/B73-1120?do=${act}` })),
  { at: `stock/${work.closed}-P1?do=label` },

  { at: 'products' },
  { at: 'products', opens: /^(Withdraw|Retirar) Bratwurst/ },
  { at: 'products/new' },
  { at: 'products/smoked-sausage', shows: '.products-live' },
  { at: 'products/house' },

  { at: 'records' },
  { at: `records/${work.record}`, opens: /^(Everything in it|Todo lo que contiene)/ },
  { at: 'records/1' },
  { at: 'records/trace' },
  { at: `records/trace?lot=${work.lot}` },
  { at: `records/trace?lot=${work.closed}-P1&direction=back` },
  { at: 'records/drill' },
  { at: `records/drill/${work.running}` },
  { at: `records/drill/${work.ended}` },
  ...['grinding', 'fat-tests', 'restricted-ingredients', 'cleanings'].map((log) => ({
    at: `records/logs/${log}`,
  })),
  { at: 'records/tests' },
  { at: 'records/costs' },
  { at: 'records/entries' },

  { at: 'rules', shows: '.rules-classes' },
  { at: 'rules/us/cooked-sausage', shows: '.rules-limits' },
  { at: 'rules/eu' },

  { at: 'plant' },
  { at: 'plant/people' },
  { at: 'plant/people', opens: /^(Add the first admin|Agregar al primer administrador)/ },
  { at: 'plant/device' },
  { at: 'plant/books' },
];

const LOOKS = [
  { language: 'en', size: 'tablet', look: 'light' },
  { language: 'es', size: 'phone', look: 'dark' },
] as const satisfies readonly Opening[];

inBrowser(
  'every place',
  (shop) => {
    let names: readonly string[];
    beforeAll(async () => {
      names = await namesGiven(shop().service.address);
    });

    /** Goes to each place in turn and gathers what is wrong, so that one run tells of all of them. */
    async function visit(opening: Opening, places: readonly Place[]): Promise<void> {
      const { page, context, complaints } = await shop().open(opening);
      const isQuiet = quiet(page);
      const wrong = new Map<string, string>();
      for (const [index, { at, shows = 'main h1', opens }] of places.entries()) {
        const name = `#/${at} ${opens ?? ''}`;
        const found = await faultsIn(async () => {
          await page.evaluate((address) => location.assign(address), `#/${at}`);
          await isQuiet();
          await page.locator(shows).first().waitFor();
          if (opens) await opener(page, opens).click();
          await isQuiet();
          expect(await page.locator('h1').count(), 'headings of the first level').toBe(1);
          expect(await widerThanTheScreen(page), 'scrolls sideways').toBe(false);
          if (opening.size === 'phone')
            expect(await widerWhenEnlarged(page), 'scrolls sideways at 400 %').toBe(false);
          await expectTouchable(page);
          await expectAccessible(page);
          expect(complaints.splice(0), 'complaints of the console').toEqual([]);
        });
        const english = opening.language === 'es' ? await englishOn(page, names) : [];
        for (const fault of [...found, ...english]) if (!wrong.has(fault)) wrong.set(fault, name);
        await look(
          page,
          `every-${String(index).padStart(2, '0')}-${at.replaceAll(/\W+/g, '-')}-${opening.language}`,
        );
      }
      expect([...wrong].map(([fault, name]) => `${name}: ${fault}`)).toEqual([]);
      await context.close();
    }

    it.each(LOOKS)('can be read, heard and tapped before any work, in $language on a $size', (opening) =>
      visit({ ...opening, at: 'start' }, FIRST),
    );

    describe('after a day of work', () => {
      let work: Work;
      beforeAll(async () => {
        work = await dayOfWork(shop().service.address);
      });

      it.each(LOOKS)(
        'can be read, heard and tapped in $language on a $size',
        (opening) => visit({ ...opening, at: 'blend' }, placesOf(work)),
        300_000,
      );

      it('and the entrance, once people log in', async () => {
        const admin = { name: 'Ana', role: 'admin', password: passwordOf('Ana') };
        await mixerAt(shop().service.address).done('/people', admin);
        for (const opening of LOOKS) {
          const { page, context, complaints } = await shop().open(opening);
          await page.getByRole('heading', { level: 1, name: /^(Log in|Iniciar sesión)$/ }).waitFor();
          expect(await widerThanTheScreen(page)).toBe(false);
          await expectAccessible(page);
          await expectTouchable(page);
          if (opening.language === 'es') expect(await englishOn(page, names)).toEqual([]);
          expect(complaints).toEqual([]);
          await context.close();
        }
      });
    });
  },
  QUICK,
);

/** What folds a part of the place out, or opens a window. */
const opener = (page: Page, name: RegExp) =>
  page
    .getByRole('button', { name })
    .or(page.locator('summary', { hasText: name }))
    .first();

/** What is wrong in one place, so that one run tells of all places. */
async function faultsIn(tries: () => Promise<void>): Promise<string[]> {
  try {
    await tries();
    return [];
  } catch (error) {
    return [error instanceof Error ? error.message : String(error)];
  }
}

/** Waits until the page has asked for nothing for a moment: all is read, and put into the language. */
function quiet(page: Page): () => Promise<void> {
  const MOMENT_MS = 120;
  let open = 0;
  let last = Date.now();
  const note = (change: number) => () => {
    open += change;
    last = Date.now();
  };
  page.on('request', note(1));
  page.on('requestfinished', note(-1));
  page.on('requestfailed', note(-1));
  return () => {
    last = Date.now();
    return expect
      .poll(() => open <= 0 && Date.now() - last > MOMENT_MS, { timeout: 20_000, interval: 40 })
      .toBe(true);
  };
}

const widerThanTheScreen = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);

/** A laptop at 400 % is as wide as 320 pixels (WCAG 2.2, 1.4.10). */
async function widerWhenEnlarged(page: Page): Promise<boolean> {
  const size = page.viewportSize();
  await page.setViewportSize({ width: 320, height: 600 });
  const isWider = await widerThanTheScreen(page);
  if (size) await page.setViewportSize(size);
  return isWider;
}
