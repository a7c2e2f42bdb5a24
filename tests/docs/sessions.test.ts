import { execFile, spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Service, startService } from '../../src/api/service.ts';
import { readSettings } from '../../src/api/settings.ts';

/**
 * Runs every command of docs/api-session.md and docs/batch-session.md and compares what it prints with what stands there.
 *
 * After a change that is meant, `UPDATE_DOCS=1 npx vitest run tests/docs/sessions.test.ts` writes the outputs anew;
 * read the difference before keeping it.
 */
const ROOT = join(import.meta.dirname, '../..');
/** Pages of commands, each with a service of its own. */
const SESSIONS = ['api-session.md', 'batch-session.md'];
const WRITTEN = 'http://127.0.0.1:8080';
const UPDATE = process.env.UPDATE_DOCS === '1';

interface Command {
  readonly line: string;
  readonly output: string;
}

const FENCE = /```console\n([\s\S]*?)```/g;

function commandsOf(block: string): Command[] {
  return block
    .split(/^\$ /m)
    .slice(1)
    .map((entry) => {
      const end = entry.indexOf('\n');
      return { line: entry.slice(0, end), output: entry.slice(end + 1) };
    });
}

/** What differs from run to run is written as dots; everything else must be the same to the letter. */
function lasting(output: string): string {
  return output
    .replaceAll('\r\n', '\n')
    .replace(/^(Date|ETag|RateLimit|RateLimit-Policy): .*$/gim, '$1: ...')
    .replace(/"at":"\d{4}-[^"]*Z"/g, '"at":"..."')
    .replace(/"(hash|previousHash)":"[0-9a-f]{64}"/g, '"$1":"..."')
    .replace(/\n*$/, '\n');
}

function run(line: string, address: string): Promise<string> {
  return new Promise((resolve, reject) => {
    execFile(
      'sh',
      ['-c', line.replaceAll(WRITTEN, address)],
      { cwd: ROOT, maxBuffer: 16 * 1024 * 1024 },
      (error, stdout, stderr) => {
        if (error) reject(new Error(`${line}\n${error.message}\n${stderr}`));
        else resolve(lasting(stdout.replaceAll(address, WRITTEN)));
      },
    );
  });
}

const curlIsThere = spawnSync('curl', ['--version']).status === 0;

describe.each(SESSIONS)('docs/%s', (name) => {
  const page = join(ROOT, 'docs', name);
  const text = readFileSync(page, 'utf8');
  const commands = [...text.matchAll(FENCE)].flatMap(([, block = '']) => commandsOf(block));

  test('holds commands of curl alone, to the address that the page names', () => {
    expect(commands.length).toBeGreaterThan(10);
    for (const { line } of commands) {
      expect(line).toMatch(/^curl -s /);
      expect(line).toContain(WRITTEN);
    }
    expect([...text.matchAll(/^\$ /gm)]).toHaveLength(commands.length);
  });

  const title = curlIsThere
    ? 'the session with curl'
    : `the session with curl (NOT RUN: curl is not installed, so the outputs of docs/${name} are unchecked)`;

  describe.skipIf(!curlIsThere)(title, () => {
    let service: Service;
    beforeAll(async () => {
      const settings = readSettings({
        PORT: '0',
        PLANT_FOLDER: join(ROOT, 'demo-data'),
        TABLES_FOLDER: join(ROOT, 'ingredient-tables'),
        STORE: ':memory:',
      });
      service = await startService(settings, pino({ level: 'silent' }));
    });
    afterAll(() => service.stop());

    test.skipIf(UPDATE).each(commands.map((command, index) => [index + 1, command] as const))(
      'command %i prints what stands below it',
      async (_number, { line, output }) => {
        expect(await run(line, service.address)).toBe(lasting(output));
      },
    );

    test.runIf(UPDATE)('is written anew', async () => {
      const outputs: string[] = [];
      for (const { line } of commands) outputs.push(await run(line, service.address));
      let next = 0;
      const rewritten = text.replace(FENCE, (_all, block: string) => {
        const entries = commandsOf(block).map(({ line }) => `$ ${line}\n${outputs[next++]}`);
        return `\`\`\`console\n${entries.join('')}\`\`\``;
      });
      writeFileSync(page, rewritten);
      expect([...rewritten.matchAll(FENCE)]).toHaveLength([...text.matchAll(FENCE)].length);
    });
  });
});
