import { execFile, spawn } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createConnection } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pino } from 'pino';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Service, startService } from '../../src/api/service.ts';
import { readSettings } from '../../src/api/settings.ts';
import { build } from '../built.ts';
import { lb, ROOT, SETTINGS, send, startDemo } from './running.ts';

const GOOD = { product: 'smoked-sausage', batchSize: { total: lb(500) } };

beforeAll(build);

describe('settings', () => {
  test('have defaults that work', () => {
    expect(readSettings({})).toEqual({
      host: '127.0.0.1',
      port: 8080,
      storeUrl: join(ROOT, 'demo-data/plant.sqlite'),
      plantFolder: resolve('demo-data'),
      tablesFolder: resolve('ingredient-tables'),
      logLevel: 'info',
      maxBodyKb: 512,
      maxFileMb: 30,
      solveSeconds: 10,
      requestsPerMinute: 600,
    });
  });

  test('take a folder from where the command was given', () => {
    const settings = readSettings({ PLANT_FOLDER: 'my-plant', CALLED_FROM: '/srv/plants' });
    expect(settings.plantFolder).toBe(resolve('/srv/plants/my-plant'));
  });

  test('are read from the environment, whatever else stands there', () => {
    expect(
      readSettings({ PORT: '0', HOST: '0.0.0.0', SOLVE_SECONDS: '3', LOG_LEVEL: 'warn', PATH: '/bin' }),
    ).toMatchObject({ port: 0, host: '0.0.0.0', solveSeconds: 3, logLevel: 'warn' });
  });

  test.each([
    ['PORT', 'abc', '0 to 65535'],
    ['PORT', '65536', '0 to 65535'],
    ['PORT', '-1', '0 to 65535'],
    ['PORT', '80.5', '0 to 65535'],
    ['PORT', '', '0 to 65535'],
    ['SOLVE_SECONDS', '0', '1 to 120'],
    ['SOLVE_SECONDS', '1e9', '1 to 120'],
    ['MAX_BODY_KB', '512kb', '1 to 10240'],
    ['REQUESTS_PER_MINUTE', '0', '1 to 1000000'],
    ['LOG_LEVEL', 'loud', 'info'],
  ])('refuse %s=%s and say what fits', (name, value, fits) => {
    expect(() => readSettings({ [name]: value })).toThrow(`${name}=${value} `);
    expect(() => readSettings({ [name]: value })).toThrow(fits);
  });

  test('that are wrong are all named at once', () => {
    expect(() => readSettings({ PORT: 'abc', SOLVE_SECONDS: 'soon' })).toThrow(
      /PORT=abc .*SOLVE_SECONDS=soon /,
    );
  });
});

describe('a start that cannot succeed', () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'meatblock-plant-'));
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  function brokenPlant(name: string, file: string, edit: (text: string) => string): string {
    const copy = join(folder, name);
    cpSync(SETTINGS.plantFolder, copy, { recursive: true });
    writeFileSync(join(copy, file), edit(readFileSync(join(copy, file), 'utf8')));
    return copy;
  }

  const BROKEN: readonly (readonly [string, string, (text: string) => string, string[]])[] = [
    [
      'lots of a material that is not in the tables',
      'lots.csv',
      (text) => text.replace('beef-cheek', 'unicorn'),
      ['lots.csv', 'row 11', 'unicorn'],
    ],
    [
      'a column misspelt',
      'lots.csv',
      (text) => text.replace('on_hand', 'onhand'),
      ['lots.csv', 'row 1', 'onhand'],
    ],
    [
      'a price that is no number',
      'prices.csv',
      (text) => text.replace('sage,7.2', 'sage,cheap'),
      ['prices.csv', 'cheap'],
    ],
    [
      'a plant that is no JSON',
      'plant.json',
      (text) => text.replace(',', ';'),
      ['plant.json', 'not valid JSON'],
    ],
    [
      'a plant without scales',
      'plant.json',
      (text) => text.replace('"scales"', '"scale"'),
      ['plant.json', 'scales'],
    ],
    [
      'a product with a percent for a fraction',
      'products/bratwurst.json',
      (text) => text.replace('0.0165', '1.65'),
      ['products/bratwurst.json', 'seasoning[0].fraction', '1.65'],
    ],
    [
      'two products of one id',
      'products/bratwurst.json',
      (text) => text.replace('"bratwurst"', '"italian-sausage"'),
      ['products/italian-sausage.json', 'id of another product'],
    ],
  ];

  test.each(BROKEN)('names the file and the place of %s', async (name, file, edit, words) => {
    const plantFolder = brokenPlant(name, file, edit);
    const failure = await startDemo({ plantFolder }).then(
      async (service) => {
        await service.stop();
        return undefined;
      },
      (error: Error) => error,
    );
    expect(failure?.name).toBe('TableError');
    for (const word of words) expect(failure?.message).toContain(word);
  });

  test('names a plant folder that is not there', async () => {
    const plantFolder = join(folder, 'nowhere');
    await expect(startDemo({ plantFolder })).rejects.toThrow(plantFolder);
  });

  test('says in one line, without a stack, which file is broken', async () => {
    const plantFolder = brokenPlant('for the program', 'lots.csv', (text) =>
      text.replace('beef-cheek', 'unicorn'),
    );
    const ended = await runMain({ PLANT_FOLDER: plantFolder, PORT: '0' });
    expect(ended.code).toBe(1);
    expect(ended.stdout).toBe('');
    expect(ended.stderr).toContain('lots.csv, row 11');
    expect(ended.stderr).not.toMatch(/\n {4}at /);
  });

  test('says which setting is wrong, without a stack', async () => {
    const ended = await runMain({ PORT: 'abc' });
    expect(ended.code).toBe(1);
    expect(ended.stdout).toBe('');
    expect(ended.stderr).toContain('PORT=abc must be a whole number from 0 to 65535');
    expect(ended.stderr).not.toMatch(/\n {4}at /);
  });
});

function runMain(environment: Record<string, string>) {
  return new Promise<{ code: number; stdout: string; stderr: string }>((resolve) => {
    execFile(
      process.execPath,
      ['dist/main.js'],
      {
        cwd: ROOT,
        env: { ...process.env, LOG_LEVEL: 'silent', STORE: ':memory:', ...environment },
        timeout: 50_000,
      },
      (error, stdout, stderr) => resolve({ code: error ? Number(error.code) : 0, stdout, stderr }),
    );
  });
}

describe('a port that is taken', () => {
  let first: Service;
  beforeAll(async () => {
    first = await startDemo();
  });
  afterAll(() => first.stop());

  test('makes the start fail with its reason', async () => {
    const port = Number(new URL(first.address).port);
    await expect(startDemo({ port })).rejects.toMatchObject({ code: 'EADDRINUSE' });
    expect((await send(first.address, { body: GOOD })).status).toBe(200);
  });

  test('leaves nothing running that would keep a program from ending', async () => {
    const port = new URL(first.address).port;
    const program = `
      import { pino } from 'pino';
      import { startService } from './src/api/service.ts';
      import { readSettings } from './src/api/settings.ts';
      startService(readSettings(process.env), pino({ level: 'silent' })).catch((error) => console.log(error.code));
    `;
    const ended = await new Promise<{ error: unknown; stdout: string }>((resolve) => {
      execFile(
        process.execPath,
        ['--import', 'tsx', '--input-type=module', '--eval', program],
        { cwd: ROOT, env: { ...process.env, PORT: port, STORE: ':memory:' }, timeout: 30_000 },
        (error, stdout) => resolve({ error, stdout }),
      );
    });
    expect(ended).toEqual({ error: null, stdout: 'EADDRINUSE\n' });
  });

  test('is named by the program, with another one to try', async () => {
    const ended = await runMain({ PORT: new URL(first.address).port });
    expect(ended.code).toBe(1);
    expect(ended.stdout).toBe('');
    expect(ended.stderr).toContain('PORT=8090 npm start');
  });
});

describe('stopping', () => {
  test('answers the request it is at, then takes no more', async () => {
    const service = await startDemo();
    // The first blend also starts a thread, so it is under way for a while.
    const underWay = send(service.address, { body: GOOD });
    await new Promise((resolve) => setTimeout(resolve, 30));
    const stopped = service.stop();
    const answer = await underWay;
    expect(answer.status).toBe(200);
    expect(JSON.parse(answer.text).outcome).toBe('blend');
    expect(answer.headers.connection).toBe('close');
    await stopped;
    await expect(send(service.address, { body: GOOD })).rejects.toMatchObject({ code: 'ECONNREFUSED' });
  });

  test('waits ten seconds at most for a caller who keeps a connection open and says nothing', async () => {
    const service = await startDemo();
    await fetch(`${service.address}/v1/health`).then((response) => response.text());
    const silent = createConnection(Number(new URL(service.address).port), '127.0.0.1');
    silent.on('error', () => {});
    await new Promise((resolve) => silent.once('connect', resolve));
    const before = performance.now();
    await service.stop();
    expect(performance.now() - before).toBeLessThan(12_000);
    silent.destroy();
  });
});

test('the program prints a worked sheet and its address, serves, and ends well on SIGTERM', async () => {
  const child = spawn(process.execPath, ['dist/main.js'], {
    cwd: ROOT,
    env: { ...process.env, PORT: '0', LOG_LEVEL: 'silent', STORE: ':memory:' },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  try {
    let printed = '';
    child.stdout.setEncoding('utf8');
    await new Promise<void>((resolve, reject) => {
      child.stdout.on('data', (data: string) => {
        printed += data;
        if (printed.includes('Ctrl-C')) resolve();
      });
      child.once('exit', () => reject(new Error(`ended early: ${printed}`)));
    });
    expect(printed).toMatch(/^BATCH SHEET {2}Smoked sausage\n/);
    expect(printed).toContain('LABEL DECLARATION');
    const [, address = ''] = /serves Demo Plant at (http:\S+)/.exec(printed) ?? [];
    expect(printed).toContain(`${address}/docs`);
    expect((await send(address, { method: 'GET', path: '/v1/health' })).status).toBe(200);
    const code = new Promise<number | null>((resolve) => child.once('exit', resolve));
    child.kill('SIGTERM');
    expect(await code).toBe(0);
  } finally {
    child.kill('SIGKILL');
  }
});

test('a demonstration whose lots are used up starts all the same, and says that there is no worked example', async () => {
  const plantFolder = mkdtempSync(join(tmpdir(), 'meatblock-used-up-'));
  cpSync(join(ROOT, 'demo-data'), plantFolder, { recursive: true });
  const lots = join(plantFolder, 'lots.csv');
  const [header = ''] = readFileSync(lots, 'utf8').split('\n');
  writeFileSync(lots, `${header}\n`);
  const child = spawn(process.execPath, ['dist/main.js'], {
    cwd: ROOT,
    env: { ...process.env, PORT: '0', LOG_LEVEL: 'silent', STORE: ':memory:', PLANT_FOLDER: plantFolder },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  try {
    let printed = '';
    for await (const chunk of child.stdout) {
      printed += chunk;
      if (printed.includes('Ctrl-C')) break;
    }
    expect(printed).toMatch(/^No worked example: /);
    expect(printed).toContain('serves Demo Plant at http');
  } finally {
    child.kill('SIGKILL');
    rmSync(plantFolder, { recursive: true });
  }
});

test('a request that fails is in the log with its cause, also when only errors are logged', async () => {
  const logged: string[] = [];
  const logger = pino({ level: 'error' }, { write: (line: string) => logged.push(line) });
  const service = await startService(SETTINGS, logger);
  try {
    const products = (await service.books.plant()).products as Map<string, unknown>;
    products.set('broken', {
      get product(): never {
        throw new Error('a fault planted by a test');
      },
    });
    const faulty = await send(service.address, { body: { ...GOOD, product: 'broken' } });
    expect(faulty.status).toBe(500);
    expect(faulty.headers['content-type']).toMatch(/^application\/problem\+json/);
    expect(JSON.parse(faulty.text).type).toBe('/problems/fault');
    expect(faulty.text).not.toContain('planted');
    expect(logged.join('')).toContain('a fault planted by a test');
  } finally {
    await service.stop();
  }
});
