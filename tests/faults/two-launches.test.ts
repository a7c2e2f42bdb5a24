import { spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { text } from 'node:stream/consumers';
import { afterAll, expect, test } from 'vitest';
import { ROOT } from '../api/running.ts';

/** A project as small as it can be: an npm that takes its time, a compiler that makes one file, and a bundler that has nothing to do. */

const project = mkdtempSync(join(tmpdir(), 'meatblock-launch-'));
afterAll(() => rmSync(project, { recursive: true, force: true }));

const COMPILER = `
const { appendFileSync, mkdirSync, writeFileSync } = require('node:fs');
appendFileSync('calls', 'compiled ');
mkdirSync('dist', { recursive: true });
writeFileSync('dist/main.js', 'console.log("it runs")');
`;
const NPM = `#!/bin/sh
printf 'installs ' >> calls
rm -rf node_modules
sleep 0.5
mkdir -p node_modules/typescript/bin node_modules/vite/bin
cp compiler node_modules/typescript/bin/tsc
: > node_modules/vite/bin/vite.js
printf 'installed ' >> calls
`;

async function launch(): Promise<string> {
  const child = spawn(process.execPath, ['src/launch.mjs', 'start'], {
    cwd: project,
    env: { ...process.env, PATH: `${join(project, 'bin')}:${process.env.PATH}` },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const said = text(child.stdout);
  await once(child, 'exit');
  return said;
}

test('commands that start at once install and build once, one after the other; a turn that nobody ended is taken over', async () => {
  for (const folder of ['src', 'bin']) mkdirSync(join(project, folder));
  cpSync(join(ROOT, 'src/launch.mjs'), join(project, 'src/launch.mjs'));
  for (const name of [
    'package-lock.json',
    'tsconfig.json',
    'tsconfig.build.json',
    'vite.config.ts',
    'package.json',
  ]) {
    writeFileSync(join(project, name), '{}');
  }
  writeFileSync(join(project, 'compiler'), COMPILER);
  writeFileSync(join(project, 'bin/npm'), NPM);
  chmodSync(join(project, 'bin/npm'), 0o755);
  const turn = join(project, '.meatblock-turn');
  // No process has such a number (Linux: at most 2 to the 22nd).
  writeFileSync(turn, '999999999');
  expect(await Promise.all([launch(), launch(), launch()])).toEqual(Array(3).fill('it runs\n'));
  expect(readFileSync(join(project, 'calls'), 'utf8')).toBe('installs installed compiled ');
  expect(existsSync(turn)).toBe(false);
});
