import { execFile, spawnSync } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';

/** Reads a PDF with programs of their own: what a person or a scanner would find on the paper. */

const run = promisify(execFile);

const READERS = ['pdftoppm', 'pdftotext', 'pdfinfo', 'zbarimg', 'dmtxread'];

/** Readers that this machine lacks: what needs them is skipped, and says so. */
export const MISSING_READERS = READERS.filter((name) => spawnSync(name, ['--help']).error !== undefined);

/** The text of all pages, laid out as on paper (pdftotext of poppler-utils). */
export async function textOfPdf(pdf: Uint8Array): Promise<string> {
  return withFile(pdf, async (file) => (await run('pdftotext', ['-layout', file, '-'])).stdout);
}

/**
 * The text of all pages in the order in which it was drawn, on one line: what is wrapped in a cell stands together
 * (pdftotext of poppler-utils).
 */
export async function drawnTextOfPdf(pdf: Uint8Array): Promise<string> {
  const text = await withFile(pdf, async (file) => (await run('pdftotext', ['-raw', file, '-'])).stdout);
  return text.replace(/\s+/g, ' ');
}

export interface PlacedWord {
  readonly text: string;
  readonly xMin: number;
  readonly xMax: number;
  readonly yMin: number;
  readonly yMax: number;
}

/** Every word of the first page with its place in millimetres from the upper left corner (pdftotext of poppler-utils). */
export async function wordsOfPdf(pdf: Uint8Array): Promise<PlacedWord[]> {
  const { stdout } = await withFile(pdf, (file) => run('pdftotext', ['-bbox', '-l', '1', file, '-']));
  const mm = (points: string | undefined) => (Number(points) / 72) * 25.4;
  const words = /<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)<\/word>/g;
  return [...stdout.matchAll(words)].map(([, xMin, yMin, xMax, yMax, text = '']) => ({
    text,
    xMin: mm(xMin),
    xMax: mm(xMax),
    yMin: mm(yMin),
    yMax: mm(yMax),
  }));
}

/** Pages and their size in millimetres (pdfinfo of poppler-utils). */
export async function pagesOfPdf(pdf: Uint8Array): Promise<{ widthMm: number; heightMm: number }[]> {
  return withFile(pdf, async (file) => {
    const { stdout } = await run('pdfinfo', ['-f', '1', '-l', '-1', file]);
    return [...stdout.matchAll(/size:\s+([\d.]+) x ([\d.]+) pts/g)].map(([, width, height]) => ({
      widthMm: (Number(width) / 72) * 25.4,
      heightMm: (Number(height) / 72) * 25.4,
    }));
  });
}

/** Each page as a PNG (pdftoppm of poppler-utils). */
export async function picturesOfPdf(pdf: Uint8Array, dotsPerInch = 150): Promise<Buffer[]> {
  return withFile(pdf, async (file, folder) => {
    await run('pdftoppm', ['-r', String(dotsPerInch), '-png', file, join(folder, 'page')]);
    const names = (await readdir(folder)).filter((name) => name.endsWith('.png')).sort();
    return Promise.all(names.map((name) => readFile(join(folder, name))));
  });
}

/** What a scanner reads of the linear codes of a page: 'EAN-13:0212345…' and the like (zbarimg of zbar-tools). */
export async function linearCodesOf(png: Uint8Array): Promise<string[]> {
  return withFile(
    png,
    async (file) => {
      const { stdout } = await run('zbarimg', [
        '--quiet',
        '-Sdisable',
        '-Sean13.enable',
        '-Sean8.enable',
        '-Supca.enable',
        '-Scode128.enable',
        '-Sdatabar-exp.enable',
        file,
      ]).catch(noneFound);
      return stdout.split('\n').filter(Boolean);
    },
    'png',
  );
}

/** What a scanner reads of the first square DataMatrix code of a page, separators as the sign U+001D (dmtxread of dmtx-utils). */
export async function matrixCodesOf(png: Uint8Array): Promise<string[]> {
  return withFile(
    png,
    async (file) => {
      const { stdout } = await run('dmtxread', [
        '--newline',
        '--gs1=29',
        '-m',
        '3000',
        '-N1',
        '-ss',
        file,
      ]).catch(noneFound);
      return stdout.split('\n').filter(Boolean);
    },
    'png',
  );
}

/** Both programs end with an error when they find nothing. */
function noneFound(error: { code?: unknown; stdout?: string; message: string }): { stdout: string } {
  if (typeof error.code === 'number') return { stdout: error.stdout ?? '' };
  throw new Error(`${error.message}; install poppler-utils, zbar-tools and dmtx-utils`);
}

async function withFile<Read>(
  bytes: Uint8Array,
  read: (file: string, folder: string) => Promise<Read>,
  ending = 'pdf',
): Promise<Read> {
  const folder = await mkdtemp(join(tmpdir(), 'meatblock-paper-'));
  try {
    const file = join(folder, `read.${ending}`);
    await writeFile(file, bytes);
    return await read(file, folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
