import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { packLabelAnswer } from '../../src/api/labels/contract.ts';
import { build, ROOT } from '../built.ts';

let folder: string;
let file: string;
beforeAll(() => {
  build();
  folder = mkdtempSync(join(tmpdir(), 'meatblock-label-'));
  file = join(folder, 'request.json');
  const blend = { product: 'ground-beef-80-20', batchSize: { total: { value: 200, unit: 'lb' } } };
  const net = { value: '1.238', unit: 'lb' };
  writeFileSync(file, JSON.stringify({ blend, format: 'tray', net, lotId: 'TRIAL-1' }));
});
afterAll(() => rmSync(folder, { recursive: true }));

const meatblock = (...args: string[]) =>
  spawnSync(process.execPath, [join(ROOT, 'dist/cli.js'), ...args], { cwd: ROOT, encoding: 'utf8' });

test('a pack label comes as data, or into a file that is ready to print', () => {
  const printed = execFileSync(process.execPath, [join(ROOT, 'dist/cli.js'), 'pack-label', file], {
    cwd: ROOT,
  });
  expect(packLabelAnswer.parse(JSON.parse(printed.toString())).netWeight.text).toBe('NET WT 1.23 LB');
  const out = join(folder, 'label.pdf');
  expect(meatblock('pack-label', file, '--pdf', out, '--stock', 'roll-102x152').status).toBe(0);
  expect(readFileSync(out).subarray(0, 5).toString()).toBe('%PDF-');
  const front = ['--part', 'front', '--stock', 'letter-102x51', '--copies', '3', '--start', '9', '--guides'];
  expect(meatblock('pack-label', file, '--pdf', out, ...front).stderr).toBe('');
});

test('what cannot be printed is refused, with what would do', () => {
  const out = join(folder, 'none.pdf');
  const small = meatblock('pack-label', file, '--pdf', out, '--stock', 'roll-58x40');
  expect([small.status, small.stderr]).toEqual([3, expect.stringContaining('It fits on roll-102x152')]);
  const unknown = meatblock('pack-label', file, '--pdf', out, '--stock', 'postcard');
  expect([unknown.status, unknown.stderr]).toEqual([
    3,
    expect.stringContaining('must be one of: roll-102x152'),
  ]);
  expect(meatblock('label', file, '--stock', 'roll-58x40').status).toBe(2);
});
