import { spawn } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { batchSheetAnswerSchema, blendAnswerSchema } from '../../src/api/contract/blend-answer.ts';
import { labelAnswerSchema } from '../../src/api/contract/label.ts';
import { build, ROOT } from '../built.ts';

const REQUESTS = join(ROOT, 'demo-data/requests');

interface Ended {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the command as a process of its own. @param input what it reads on standard input. */
function meatblock(args: readonly string[], input = ''): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [join(ROOT, 'dist/cli.js'), ...args], {
      cwd: ROOT,
    });
    let stdout = '';
    let stderr = '';
    child.stdout.setEncoding('utf8').on('data', (data: string) => {
      stdout += data;
    });
    child.stderr.setEncoding('utf8').on('data', (data: string) => {
      stderr += data;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, stdout, stderr }));
    // A command that reads no standard input may be gone before this is written.
    child.stdin.on('error', () => {});
    child.stdin.end(input);
  });
}

const requestFile = (name: string) => join('demo-data/requests', name);
const SOME_REQUEST = requestFile('ground-beef-80-20-500-lb.json');

let folder: string;
beforeAll(() => {
  build();
  folder = mkdtempSync(join(tmpdir(), 'meatblock-cli-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

function fileWith(name: string, text: string): string {
  const file = join(folder, name);
  writeFileSync(file, text);
  return file;
}

describe.each(readdirSync(REQUESTS))('the request %s', (name) => {
  test('gives a sheet, the same sheet as JSON, a blend of the same weights, and a label', async () => {
    const [sheet, asJson, blend, label] = await Promise.all([
      meatblock(['sheet', requestFile(name)]),
      meatblock(['sheet', requestFile(name), '--json']),
      meatblock(['blend', requestFile(name)]),
      meatblock(['label', requestFile(name)]),
    ]);
    for (const { code, stderr } of [sheet, asJson, blend, label]) expect([code, stderr]).toEqual([0, '']);
    expect(sheet.stdout).toMatch(/^BATCH SHEET {2}/);
    expect(sheet.stdout).toContain('LIMITS, checked on the weights above');
    expect(sheet.stdout).not.toMatch(/^ +NO /m);
    const parsed = batchSheetAnswerSchema.parse(JSON.parse(asJson.stdout));
    const answer = blendAnswerSchema.parse(JSON.parse(blend.stdout));
    const lines = answer.outcome === 'blend' ? answer.lines : [];
    expect(lines.length).toBeGreaterThan(1);
    expect(parsed.weigh.map(({ material, weight, unit }) => [material, weight, unit])).toEqual(
      lines.map(({ material, weight }) => [material, weight.text, weight.unit]),
    );
    for (const { weight, unit } of parsed.weigh) {
      expect(sheet.stdout).toMatch(new RegExp(` ${weight} +${unit} `));
    }
    expect(label.stdout).toMatch(/^LABEL DECLARATION\n/);
  });
});

test('a label says the same as text and as JSON', async () => {
  const [label, asJson] = await Promise.all([
    meatblock(['label', requestFile('bratwurst-400-links.json')]),
    meatblock(['label', '--json', requestFile('bratwurst-400-links.json')]),
  ]);
  const parsed = labelAnswerSchema.parse(JSON.parse(asJson.stdout));
  expect(label.stdout).toContain(`Ingredients: ${parsed.ingredients.text}`);
  expect(label.stdout).toContain('Contains: Milk.');
  expect(parsed.allergens.allergens).toEqual(['milk']);
});

test('puts a sheet and a label on paper, whole or not at all', async () => {
  const [sheet, label, nowhere] = ['sheet.pdf', 'label.pdf', 'no such folder/sheet.pdf'].map((name) =>
    join(folder, name),
  ) as [string, string, string];
  for (const file of [sheet, label]) writeFileSync(file, 'the one before');
  const [ofSheet, ofLabel, ofNowhere] = await Promise.all([
    meatblock(['sheet', SOME_REQUEST, '--pdf', sheet, '--paper', 'a4', '--language', 'es', '--cost']),
    meatblock(['label', SOME_REQUEST, '--pdf', label]),
    meatblock(['sheet', SOME_REQUEST, '--pdf', nowhere]),
  ]);
  expect(ofSheet).toEqual({ code: 0, stdout: `Written: ${sheet}\n`, stderr: '' });
  expect(ofLabel).toEqual({ code: 0, stdout: `Written: ${label}\n`, stderr: '' });
  for (const file of [sheet, label]) expect(readFileSync(file, 'latin1').slice(0, 5)).toBe('%PDF-');
  expect(ofNowhere).toEqual({ code: 3, stdout: '', stderr: `${nowhere} cannot be written (ENOENT).\n` });
  expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
});

test('tells the floor in Spanish, and refuses what it does not print', async () => {
  const refused = [
    [['sheet', SOME_REQUEST, '--paper', 'a4'], '--paper is for a PDF'],
    [['sheet', SOME_REQUEST, '--pdf', 'x.pdf', '--paper', 'a3'], '--paper a3: choose one of letter, a4'],
    [['products', '--pdf', 'x.pdf'], '--pdf is for sheet'],
    [['label', SOME_REQUEST, '--language', 'es'], '--language is for sheet'],
    [['sheet', SOME_REQUEST, '--cost'], '--cost is for the PDF of a sheet'],
  ] as const;
  const [spanish, ...ended] = await Promise.all([
    meatblock(['sheet', SOME_REQUEST, '--language', 'es']),
    ...refused.map(([args]) => meatblock(args)),
  ]);
  expect(spanish.stdout).toContain('LOTES POR SURTIR');
  ended.forEach(({ code, stderr }, index) => {
    expect(code).toBe(2);
    expect(stderr).toContain(refused[index]?.[1]);
  });
});

test('pieces asked for are the pieces on the sheet', async () => {
  for (const [file, pieces] of [
    ['hamburger-patties-600.json', 600],
    ['bratwurst-400-links.json', 400],
  ] as const) {
    const { stdout } = await meatblock(['sheet', '--json', requestFile(file)]);
    const { batch } = batchSheetAnswerSchema.parse(JSON.parse(stdout));
    expect(Math.abs((batch.pieces ?? 0) - pieces), file).toBeLessThanOrEqual(1);
  }
});

describe('the command', () => {
  test('reads a request from standard input', async () => {
    const text = readFileSync(join(ROOT, SOME_REQUEST), 'utf8');
    const [piped, fromFile] = await Promise.all([
      meatblock(['sheet', '-'], text),
      meatblock(['sheet', SOME_REQUEST]),
    ]);
    expect(piped).toEqual(fromFile);
    expect(piped.code).toBe(0);
  });

  test('reads a request that an editor gave a byte order mark', async () => {
    const text = readFileSync(join(ROOT, SOME_REQUEST), 'utf8');
    const { code, stderr } = await meatblock(['sheet', fileWith('marked.json', `\uFEFF${text}`)]);
    expect([code, stderr]).toEqual([0, '']);
  });

  test('lists the products, by line and as JSON', async () => {
    const [lines, asJson] = await Promise.all([meatblock(['products']), meatblock(['products', '--json'])]);
    const products = JSON.parse(asJson.stdout);
    expect(products.map(({ id, name }: { id: string; name: string }) => `${id}  ${name}`)).toEqual(
      lines.stdout.trimEnd().split('\n'),
    );
    expect(products).toHaveLength(8);
    expect([lines.code, asJson.code]).toEqual([0, 0]);
  });

  test('lists the limits of a product and of a class, each with its citation', async () => {
    const [ofProduct, ofClass, asJson] = await Promise.all([
      meatblock(['limits', 'italian-sausage']),
      meatblock(['limits', 'ground-beef', '--date', '2026-11-25']),
      meatblock(['limits', 'ground-beef-80-20', '--json']),
    ]);
    expect([ofProduct.code, ofClass.code, asJson.code]).toEqual([0, 0, 0]);
    expect(ofProduct.stdout).toContain('Italian sausage holds fennel or anise. 9 CFR 319.145(a)');
    expect(ofClass.stdout).toContain('Ground beef holds at most 30 % fat. 9 CFR 319.15(a)');
    const { standards } = JSON.parse(asJson.stdout);
    expect(standards.map(({ productClass }: { productClass: string }) => productClass)).toEqual([
      'ground-beef',
    ]);
  });

  test('works for another plant', async () => {
    const plant = join(folder, 'plant');
    cpSync(join(ROOT, 'demo-data'), plant, { recursive: true });
    const file = join(plant, 'plant.json');
    writeFileSync(file, readFileSync(file, 'utf8').replace('Demo Plant', 'Second Plant'));
    const { code, stdout } = await meatblock(['sheet', SOME_REQUEST, '--plant', plant]);
    expect(code).toBe(0);
    expect(stdout).toContain('Second Plant, Est. 00000');
  });

  test('works from another folder', async () => {
    const ended = await new Promise<Ended>((resolve) => {
      const child = spawn(process.execPath, [join(ROOT, 'dist/cli.js'), 'products'], {
        cwd: folder,
      });
      let stdout = '';
      let stderr = '';
      child.stdout.on('data', (data) => {
        stdout += data;
      });
      child.stderr.on('data', (data) => {
        stderr += data;
      });
      child.on('close', (code) => resolve({ code, stdout, stderr }));
    });
    expect([ended.code, ended.stderr]).toEqual([0, '']);
    expect(ended.stdout).toContain('bratwurst  Bratwurst');
  });

  test('explains itself when asked', async () => {
    for (const args of [['--help'], ['-h'], ['sheet', '--help']]) {
      const { code, stdout, stderr } = await meatblock(args);
      expect([code, stderr]).toEqual([0, '']);
      for (const command of ['sheet', 'label', 'blend', 'limits', 'products'])
        expect(stdout).toContain(command);
    }
  });
});

/** Ends with this code, says these words on standard error, and prints nothing that a pipe would take up. */
type Failure = readonly [
  name: string,
  args: readonly string[],
  code: number,
  words: readonly string[],
  input?: string,
];
const FAILURES: readonly Failure[] = [
  ['no command', [], 2, ['meatblock sheet']],
  ['an unknown command', ['grind', SOME_REQUEST], 2, ['"grind" is no command', 'meatblock sheet']],
  ['an unknown option', ['sheet', SOME_REQUEST, '--color'], 2, ['--color', 'meatblock sheet']],
  ['an option without its value', ['sheet', SOME_REQUEST, '--plant'], 2, ['--plant']],
  ['a word too many', ['sheet', SOME_REQUEST, 'twice'], 2, ['"twice" is one word too many']],
  ['a word too many for products', ['products', 'bratwurst'], 2, ['"bratwurst"']],
  ['a sheet of nothing', ['sheet'], 2, ['name a JSON file']],
  ['limits of nothing', ['limits'], 2, ['name a product']],
  [
    'a day in another order',
    ['limits', 'bratwurst', '--date', '11/25/2026'],
    2,
    ['11/25/2026', 'YYYY-MM-DD'],
  ],
  ['a day that is not in the calendar', ['limits', 'bratwurst', '--date', '2026-02-30'], 2, ['2026-02-30']],
  ['a file that is not there', ['sheet', 'nowhere.json'], 3, ['nowhere.json']],
  ['a folder for a file', ['sheet', 'demo-data'], 3, ['demo-data']],
  ['a plant that is not there', ['products', '--plant', 'nowhere'], 3, ['nowhere']],
  [
    'tables that are not there',
    ['products', '--tables', 'nowhere'],
    3,
    ['trim-lines.csv', 'folder of tables'],
  ],
  ['limits of nothing known', ['limits', 'meat-pie'], 3, ['"meat-pie"', 'ground-beef']],
  ['standard input that is not JSON', ['blend', '-'], 3, ['Standard input is not JSON'], '{"product":'],
  ['empty standard input', ['sheet', '-'], 3, ['Standard input is not JSON'], ''],
  [
    'an unknown field',
    ['sheet', '-'],
    3,
    ['/colour', 'unknown field'],
    '{"product":"bratwurst","batchSize":{"pieces":400},"colour":"red"}',
  ],
  ['a request that is a list', ['label', '-'], 3, ['(whole request)', 'product and batchSize'], '[]'],
  [
    'an unknown product',
    ['sheet', '-'],
    3,
    ['/product', '"meat-pie"', 'the products are bratwurst'],
    '{"product":"meat-pie","batchSize":{"pieces":400}}',
  ],
  [
    'a sheet of more than is on hand',
    ['sheet', '-'],
    4,
    ['at most', '9000.00 lb is asked'],
    '{"product":"bratwurst","batchSize":{"total":{"value":9000,"unit":"lb"}}}',
  ],
  [
    'a label of more than is on hand',
    ['label', '-'],
    4,
    ['at most', '9000.00 lb is asked'],
    '{"product":"bratwurst","batchSize":{"total":{"value":9000,"unit":"lb"}}}',
  ],
];

describe('when it cannot do what is asked', () => {
  test.each(FAILURES.map((failure) => [failure[0], failure] as const))(
    'for %s, it prints nothing, says why and ends with its code',
    async (_called, [_name, args, code, words, input = '']) => {
      const ended = await meatblock(args, input);
      expect(ended.code, ended.stderr).toBe(code);
      expect(ended.stdout).toBe('');
      for (const word of words) expect(ended.stderr).toContain(word);
      expect(ended.stderr).not.toMatch(/\n {4}at /);
    },
  );

  test('names the file and line of a broken table', async () => {
    const plant = join(folder, 'broken');
    cpSync(join(ROOT, 'demo-data'), plant, { recursive: true });
    const file = join(plant, 'lots.csv');
    writeFileSync(file, readFileSync(file, 'utf8').replace('beef-cheek', 'unicorn'));
    const { code, stdout, stderr } = await meatblock(['sheet', SOME_REQUEST, '--plant', plant]);
    expect([code, stdout]).toEqual([3, '']);
    expect(stderr).toContain('lots.csv, row 11');
    expect(stderr).not.toMatch(/\n {4}at /);
  });

  test('prints the reasons as JSON when a blend alone is asked for and there is none', async () => {
    const request = '{"product":"bratwurst","batchSize":{"total":{"value":9000,"unit":"lb"}}}';
    const { code, stdout } = await meatblock(['blend', '-'], request);
    expect(code).toBe(4);
    expect(blendAnswerSchema.parse(JSON.parse(stdout))).toMatchObject({ outcome: 'no blend' });
  });
});
