import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

interface Report {
  readonly modules: readonly { readonly source: string }[];
  readonly summary: { readonly violations: readonly { from: string; to: string; rule: { name: string } }[] };
}

const IS_SOURCE = /(?<!\.d)\.(tsx?|mjs)$/;

/** Runs the checker over the src below a folder. */
function inspect(folder: string): Report {
  const output = execFileSync(
    process.execPath,
    [
      resolve('tests/architecture/cruise.mjs'),
      '--config',
      resolve('tests/architecture/import-rules.cjs'),
      '--output-type',
      'json',
      'src',
    ],
    { cwd: folder, encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 },
  );
  return JSON.parse(output) as Report;
}

const described = ({ from, to, rule }: Report['summary']['violations'][number]) =>
  `${from} -> ${to} (${rule.name})`;

describe('the direction of imports', () => {
  const report = inspect('.');
  const seen = new Set(
    report.modules
      .map(({ source }) => source)
      .filter((source) => source.startsWith('src/') && IS_SOURCE.test(source)),
  );

  it('has looked at every source file', () => {
    const onDisk = readdirSync('src', { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && IS_SOURCE.test(entry.name))
      .map((entry) => join(entry.parentPath, entry.name));
    expect([...seen].sort()).toEqual(onDisk.sort());
  });

  it('keeps the whitelist', () => {
    expect(report.summary.violations.map(described)).toEqual([]);
  });

  it('catches a core module that reaches for the service', () => {
    const folder = mkdtempSync(join(tmpdir(), 'meatblock-imports-'));
    try {
      cpSync('src', join(folder, 'src'), { recursive: true });
      symlinkSync(resolve('node_modules'), join(folder, 'node_modules'), 'dir');
      writeFileSync(
        join(folder, 'src/rules/planted.ts'),
        "import { createApp } from '../api/app.ts';\nexport const planted = createApp;\n",
      );
      const caught = inspect(folder).summary.violations.filter(({ from }) => from === 'src/rules/planted.ts');
      expect(caught.map(described)).toEqual(['src/rules/planted.ts -> src/api/app.ts (not-in-allowed)']);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
