import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

/**
 * The tour in the README is run for real, so that it stays true. UPDATE_DOCS=1 writes what the commands print now
 * into the README; look at the difference before keeping it.
 */
const README = 'README.md';
const BLOCK = /```console\n\$ (.+)\n([\s\S]*?)```/g;

/** The commands as a user types them, without installing or building again for each. */
function run(command: string): string {
  const direct = command.replace('npm run -s meatblock --', 'node --import tsx src/cli.ts');
  const { stdout, stderr } = spawnSync('sh', ['-c', direct], { encoding: 'utf8' });
  return `${stdout}${stderr}`;
}

describe('the tour in the README', () => {
  const text = readFileSync(README, 'utf8');
  const blocks = [...text.matchAll(BLOCK)].map(([, command = '', output = '']) => ({ command, output }));

  it('has commands to run', () => {
    expect(blocks.length).toBeGreaterThanOrEqual(5);
  });

  if (process.env.UPDATE_DOCS) {
    it('is written anew', () => {
      writeFileSync(
        README,
        text.replace(BLOCK, (_, command: string) => `\`\`\`console\n$ ${command}\n${run(command)}\`\`\``),
      );
    });
    return;
  }
  it.each(blocks)('prints what it says: $command', ({ command, output }) => {
    expect(run(command)).toBe(output);
  });
});
