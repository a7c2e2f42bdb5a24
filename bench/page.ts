import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { pino } from 'pino';
import { type Browser, chromium, type Page } from 'playwright-core';
import { startService } from '../src/api/service.ts';
import { readSettings } from '../src/api/settings.ts';
import { print, quantile } from './timing.ts';

const BUILT = 'dist/page';
const COLD_STARTS = 7;
const MOVES = 20;
/** Lots beside those of the demo plant. */
const MORE_LOTS = [0, 200, 600];
/** Where less than a year is asked of the books, a look at the demo plant is enough. */
const QUICK = { moreLots: [0], coldStarts: 3, moves: 5 };
const WHOLE = { moreLots: MORE_LOTS, coldStarts: COLD_STARTS, moves: MOVES };

/**
 * What the page weighs, how long it takes from nothing to the first blend on screen, and from a tap on a target to the
 * next. In real Chromium against a service on this machine; without Chromium only the weight is printed.
 */
export async function pageInBrowser(years: number): Promise<void> {
  const { moreLots, coldStarts, moves } = years < 1 ? QUICK : WHOLE;
  weigh();
  const executablePath = (process.env.PATH ?? '')
    .split(delimiter)
    .map((folder) => join(folder, 'chromium'))
    .find((file) => existsSync(file));
  if (executablePath === undefined) return;
  const settings = readSettings({ PORT: '0', STORE: ':memory:', REQUESTS_PER_MINUTE: '1000000' });
  const service = await startService(settings, pino({ level: 'silent' }));
  const browser = await chromium.launch({
    executablePath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--disable-background-networking'],
  });
  try {
    await weighFirst(browser, service.address);
    let lots = 0;
    for (const more of moreLots) {
      for (; lots < more; lots++) await receive(service.address, lots);
      const starts: number[] = [];
      for (let start = 0; start < coldStarts; start++) {
        // A new context has nothing in its cache.
        const context = await browser.newContext({ viewport: { width: 1024, height: 768 }, locale: 'en-US' });
        const page = await context.newPage();
        starts.push(await firstBlend(page, service.address));
        if (start === coldStarts - 1)
          printTimes('page, a tap to the next blend', await tapTimes(page, moves), more);
        await context.close();
      }
      printTimes('page, cold start to the first blend', starts, more);
    }
  } finally {
    await browser.close();
    await service.stop();
  }
}

function weigh(): void {
  const zipped = readdirSync(BUILT).map((name) => ({
    name,
    bytes: gzipSync(readFileSync(join(BUILT, name)), { level: 9 }).length,
  }));
  const sum = (files: typeof zipped) => files.reduce((total, { bytes }) => total + bytes, 0);
  print('page, all of it, gzip', sum(zipped) / 1000, 'kB', { files: zipped.length });
}

/** Of the page's own files that a browser without any of them fetches until the first blend stands there. */
async function weighFirst(browser: Browser, address: string): Promise<void> {
  const context = await browser.newContext({ locale: 'en-US' });
  const page = await context.newPage();
  const names: string[] = [];
  page.on('request', (request) => {
    const { pathname } = new URL(request.url());
    if (pathname === '/') names.push('index.html');
    else if (pathname.startsWith('/page/')) names.push(pathname.slice('/page/'.length));
  });
  await firstBlend(page, address);
  await context.close();
  const bytes = names.map((name) => gzipSync(readFileSync(join(BUILT, name)), { level: 9 }).length);
  print('page, until the first blend, gzip', bytes.reduce((total, each) => total + each, 0) / 1000, 'kB', {
    files: names.length,
  });
}

function printTimes(name: string, ms: readonly number[], moreLots: number): void {
  print(`${name}, median`, quantile(ms, 0.5), 'ms', { moreLots, n: ms.length });
  print(`${name}, worst`, Math.max(...ms), 'ms', { moreLots, n: ms.length });
}

/** Milliseconds since the navigation began until the picture of the blend has been drawn. */
async function firstBlend(page: Page, address: string): Promise<number> {
  await page.goto(`${address}/#/blend`, { waitUntil: 'commit' });
  return (await page.evaluate(DRAWN)) as number;
}

const DRAWN = `new Promise((resolve) => {
  const look = () => {
    if (document.querySelector('.blend-bar')) requestAnimationFrame(() => resolve(performance.now()));
    else requestAnimationFrame(look);
  };
  look();
})`;

/** Milliseconds from each tap on a target until the new blend stands there, drawn. */
async function tapTimes(page: Page, moves: number): Promise<number[]> {
  const times: number[] = [];
  for (let move = 0; move < moves; move++) {
    // Let the picture of the last one be finished: people look before they tap.
    await page.waitForTimeout(900);
    const word = move % 2 === 0 ? 'less' : 'more';
    times.push((await page.evaluate(TAP.replace('WORD', word))) as number);
  }
  return times;
}

const TAP = `new Promise((resolve) => {
  const button = [...document.querySelectorAll('.blend-targets button')]
    .filter((each) => each.getAttribute('aria-label').endsWith('WORD')).at(-1);
  const answer = document.querySelector('.blend-answer');
  const start = performance.now();
  button.click();
  const look = () => {
    if (answer.getAttribute('aria-busy') === 'false' && document.querySelector('.blend-bar')) {
      requestAnimationFrame(() => resolve(performance.now() - start));
    } else requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
})`;

/** One more lot of trim, unlike the others in fat and price. */
async function receive(address: string, index: number): Promise<void> {
  const pork = ['pork-trim-50', 'pork-trim-72', 'pork-trim-80', 'pork-trim-42'];
  const answer = await fetch(`${address}/v1/lots`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({
      id: `BENCH-${index}`,
      materialId: pork[index % pork.length],
      mass: { value: 100 + (index % 7) * 30, unit: 'lb' },
      cost: { amount: Number((0.7 + ((index * 37) % 100) / 130).toFixed(2)), per: 'lb' },
    }),
  });
  if (!answer.ok) throw new Error(`the bench could not receive a lot: ${await answer.text()}`);
}
