import { existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect } from 'vitest';
import type { Service } from '../../src/api/service.ts';
import type { Settings } from '../../src/api/settings.ts';
import { startDemo } from '../api/running.ts';

/**
 * The page in real Chromium, on a service that really listens. The page is the built one (npm run build), or one that was
 * built into the folder that PAGE_FOLDER names.
 */

const CHROMIUM = (process.env.PATH ?? '')
  .split(delimiter)
  .flatMap((folder) => ['chromium', 'chromium-browser', 'google-chrome'].map((name) => join(folder, name)))
  .find((file) => existsSync(file));

const { PAGE_FOLDER } = process.env;

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-dev-shm-usage',
];

/** Sizes of what people have: a tablet at the mixer, a laptop at the desk, a phone. */
export const SIZES = {
  tablet: { width: 1024, height: 768 },
  desk: { width: 1440, height: 900 },
  phone: { width: 390, height: 844 },
} as const;

export interface Opened {
  readonly page: Page;
  readonly context: BrowserContext;
  /** What the console said that it should not, and requests that came to nothing. */
  readonly complaints: string[];
}

export interface Opening {
  /** After '#/'. */
  readonly at?: string;
  readonly size?: keyof typeof SIZES;
  readonly language?: 'en' | 'es';
  readonly look?: 'light' | 'dark';
  /** Texts of console errors that belong to what is tried: a refusal shows as a failed resource. */
  readonly expected?: readonly RegExp[];
}

export interface Shop {
  readonly service: Service;
  readonly browser: Browser;
  readonly open: (opening?: Opening) => Promise<Opened>;
}

/** Chromium logs every answer of 4xx as an error of the console; the page shows these itself. */
const REFUSALS = /the server responded with a status of 4\d\d/;

/**
 * Tests on one service and one browser. Without Chromium they are skipped, and the run says so.
 * @param tests gets the shop, which is there once the tests run.
 */
export function inBrowser(
  name: string,
  tests: (shop: () => Shop) => void,
  settings: Partial<Settings> = {},
): void {
  describe.skipIf(CHROMIUM === undefined)(name, () => {
    let shop: Shop | undefined;
    beforeAll(async () => {
      const service = await startDemo({ ...(PAGE_FOLDER && { pageFolder: PAGE_FOLDER }), ...settings });
      const browser = await chromium.launch({ executablePath: CHROMIUM ?? '', args: FLAGS });
      shop = { service, browser, open: (opening) => open(browser, service, opening) };
    });
    afterAll(async () => {
      await shop?.browser.close();
      await shop?.service.stop();
    });
    tests(() => {
      if (!shop) throw new Error('the shop is not open yet');
      return shop;
    });
  });
}

async function open(browser: Browser, service: Service, opening: Opening = {}): Promise<Opened> {
  const { at = '', size = 'tablet', language = 'en', look = 'light', expected = [] } = opening;
  const context = await browser.newContext({
    viewport: SIZES[size],
    hasTouch: size !== 'desk',
    locale: language === 'es' ? 'es-MX' : 'en-US',
    colorScheme: look,
    reducedMotion: 'reduce',
  });
  context.setDefaultTimeout(10_000);
  const page = await context.newPage();
  const complaints: string[] = [];
  const note = (text: string) => {
    if (![REFUSALS, ...expected].some((allowed) => allowed.test(text))) complaints.push(text);
  };
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') note(message.text());
  });
  page.on('pageerror', (error) => note(String(error)));
  await page.goto(`${service.address}/#/${at}`);
  return { page, context, complaints };
}

/** WCAG 2.2 A and AA and good practice, by axe-core: nothing may be found. */
export async function expectAccessible(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page })
    // A list of hundreds of time zones or materials is drawn by the browser, and each of its options is like the first.
    .exclude('option:nth-of-type(n + 5)')
    // Selectors of what is right are not asked for: making them takes longer than finding what is wrong.
    .options({ resultTypes: ['violations'] })
    // Everything is in one frame, so nothing has to be put together in a second page.
    .setLegacyMode(true)
    .analyze();
  const found = violations.map(
    ({ id, help, nodes }) =>
      `${id}: ${help}\n${nodes.map(({ html, failureSummary }) => `  ${html}\n  ${failureSummary}`).join('\n')}`,
  );
  expect(found).toEqual([]);
}

/** Everything that is tapped is at least 44 by 44 CSS pixels, or a link within a sentence (WCAG 2.2, 2.5.5). */
export async function expectTouchable(page: Page): Promise<void> {
  const small = await page.evaluate(() => {
    const shown = [...document.querySelectorAll('button, a[href], input, select, textarea, summary')].filter(
      (element) => (element as HTMLElement).checkVisibility({ checkVisibilityCSS: true }),
    );
    return shown.flatMap((element) => {
      const within = element.closest('label') ?? element;
      const { width, height } = within.getBoundingClientRect();
      const isInText = element.tagName === 'A' && getComputedStyle(element).display === 'inline';
      const isHidden = width <= 1 || height <= 1 || element.classList.contains('skip');
      return isInText || isHidden || (width >= 43.5 && height >= 43.5)
        ? []
        : [`${element.outerHTML.slice(0, 160)} is ${width.toFixed(0)} by ${height.toFixed(0)}`];
    });
  });
  expect(small).toEqual([]);
}

/** With LOOK=FOLDER in the environment pictures of the page are kept there, to be looked at. */
export async function look(page: Page, name: string): Promise<void> {
  const folder = process.env.LOOK;
  if (folder === undefined) return;
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`), fullPage: true });
}

/** A folder of its own for what a test saves. */
export function ownFolder(): { readonly folder: string; readonly remove: () => void } {
  const folder = mkdtempSync(join(tmpdir(), 'meatblock-browser-'));
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) };
}
