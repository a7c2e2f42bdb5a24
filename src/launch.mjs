/**
 * Installs and builds when needed, then runs. Plain JavaScript, because it runs on a fresh clone before
 * anything is installed. Usage: node src/launch.mjs start|test|bench|crash|build|cli [arguments]
 */
import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
/** As in package.json: some packages refuse the releases between. */
const NODE_RANGES = [
  { major: 20, minor: 19 },
  { major: 22, minor: 13 },
  { major: 24, minor: 0, orNewer: true },
];
const CALLED_FROM = process.env.INIT_CWD ?? process.cwd();
const INSTALLED = join(ROOT, 'node_modules', '.meatblock-installed');
const BUILT = join(ROOT, 'dist', '.meatblock-built');
/** Whose turn it is to install or to build, by process id. */
const TURN = join(ROOT, '.meatblock-turn');

/** Programs outside npm that some tests use; without one its tests are skipped and named. */
const TOOLS = [
  { command: 'curl', debianPackage: 'curl', tests: 'the documented curl session' },
  {
    command: 'initdb',
    // Debian keeps it off the path.
    versionsIn: '/usr/lib/postgresql',
    debianPackage: 'postgresql',
    tests: 'the store on PostgreSQL',
    instead: 'TEST_POSTGRES_URL',
  },
  { command: 'pdftoppm', debianPackage: 'poppler-utils', tests: 'what is printed, read back' },
  { command: 'zbarimg', debianPackage: 'zbar-tools', tests: 'linear codes, read back' },
  { command: 'chromium', debianPackage: 'chromium', tests: 'the page in a browser' },
  { command: 'dmtxread', debianPackage: 'dmtx-utils', tests: 'DataMatrix codes, read back' },
];

/** The service by the compiler, the page by the bundler. */
const BUILDERS = [
  ['node_modules/typescript/bin/tsc', '-p', 'tsconfig.build.json'],
  ['node_modules/vite/bin/vite.js', 'build', '--logLevel', 'warn'],
];

/** What compiles better-sqlite3 where no built one can be fetched. */
const COMPILER = ['python3', 'make', 'g++'].map((tool) => ({ command: tool, debianPackage: tool }));

const [command = 'start', ...rest] = process.argv.slice(2);
process.chdir(ROOT);
requireNode();
install();

if (command === 'start') {
  build();
  run(process.execPath, ['--enable-source-maps', 'dist/main.js', ...rest]);
} else if (command === 'cli') {
  build();
  run(process.execPath, ['--enable-source-maps', 'dist/cli.js', ...rest]);
} else if (command === 'test') {
  const missing = provide(TOOLS, 'for the tests');
  build();
  run(process.execPath, ['node_modules/vitest/vitest.mjs', 'run', ...rest], () => reportMissing(missing));
} else if (command === 'build') {
  build();
} else if (command === 'crash') {
  build();
  run(process.execPath, ['--import', 'tsx', 'tests/faults/crash/crash.ts', ...rest]);
} else if (command === 'bench') {
  build();
  run(process.execPath, ['--expose-gc', '--import', 'tsx', 'bench/bench.ts', ...rest]);
} else {
  fail(`"${command}" is unknown; use start, test, bench, crash, build or cli.`);
}

function requireNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  const fits = (range) =>
    (major === range.major && minor >= range.minor) || (range.orNewer && major > range.major);
  if (NODE_RANGES.some(fits)) return;
  fail(`Node 20.19, 22.13 or 24 and newer is needed; this is ${process.versions.node}.`);
}

/** npm ci, but only when the lock file or Node has changed since the last time. */
function install() {
  const wanted = hash([readFileSync('package-lock.json'), process.versions.modules]);
  inTurn(
    () => read(INSTALLED) === wanted,
    () => installPackages(wanted),
  );
}

function installPackages(wanted) {
  const missing = provide(COMPILER, 'to compile with');
  console.error('Installing packages (once, about a minute)...');
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  const { status } = spawnSync(npm, ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    // The progress of the installation must not end up in what the command prints.
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
  if (status !== 0) fail(`Installing the packages failed; the reason stands above. ${remedy(missing)}`);
  writeFileSync(INSTALLED, wanted);
}

function remedy(missing) {
  if (missing.length === 0) return 'Run the command again.';
  const names = missing.map(({ command: tool }) => tool).join(', ');
  return `Where better-sqlite3 cannot be fetched it is compiled, and for that something is missing: ${names}. ${howToAdd(missing)}`;
}

/** The service and the page, but only when a source has changed since the last build. */
function build() {
  const sources = readdirSync('src', { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
    .sort();
  const configs = ['tsconfig.json', 'tsconfig.build.json', 'vite.config.ts', 'package-lock.json'];
  const wanted = hash([...sources, ...configs].flatMap((file) => [file, readFileSync(file)]));
  inTurn(
    () => read(BUILT) === wanted,
    () => compile(wanted),
  );
}

function compile(wanted) {
  console.error('Building...');
  rmSync('dist', { recursive: true, force: true });
  for (const tool of BUILDERS) {
    const { status } = spawnSync(process.execPath, tool, { stdio: ['ignore', 2, 2] });
    if (status !== 0) fail('Building failed; the reason stands above.');
  }
  writeFileSync(BUILT, wanted);
}

/** Two commands that install or build at once would take the files away from under each other: one waits. */
function inTurn(isDone, work) {
  if (isDone()) return;
  while (!takeTurn()) Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 200);
  try {
    if (!isDone()) work();
  } finally {
    rmSync(TURN, { force: true });
  }
}

function takeTurn() {
  try {
    writeFileSync(TURN, String(process.pid), { flag: 'wx' });
    return true;
  } catch (error) {
    if (error.code !== 'EEXIST') throw error;
  }
  // Whoever was ended in the middle of it leaves the file behind.
  const holder = Number(read(TURN));
  const isLeft = holder > 0 ? !isRunning(holder) : ageMs(TURN) > 5_000;
  if (isLeft) rmSync(TURN, { force: true });
  return false;
}

function ageMs(file) {
  return existsSync(file) ? Date.now() - statSync(file).mtimeMs : 0;
}

function isRunning(processId) {
  try {
    process.kill(processId, 0);
    return true;
  } catch (error) {
    return error.code === 'EPERM';
  }
}

/** Installs missing programs where that is possible without asking, as root on Debian; gives those still missing. */
function provide(tools, purpose) {
  const missing = tools.filter(isMissing);
  if (missing.length === 0 || process.getuid?.() !== 0 || !runs('apt-get')) return missing;
  const packages = missing.map(({ debianPackage }) => debianPackage);
  console.error(`Installing ${packages.join(', ')} ${purpose}...`);
  spawnSync('apt-get', ['update', '-qq'], { stdio: ['ignore', 2, 2] });
  spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...packages], {
    stdio: ['ignore', 2, 2],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  });
  return tools.filter(isMissing);
}

function reportMissing(missing) {
  if (missing.length === 0) return;
  const names = missing.map(({ command: tool, tests }) => `${tests} (needs ${tool})`).join(', ');
  console.log(`Not run: ${names}. ${howToAdd(missing)}`);
}

function howToAdd(missing) {
  const packages = missing.map(({ debianPackage }) => debianPackage).join(' ');
  return `To add it on Debian or Ubuntu: sudo apt-get install ${packages}`;
}

function run(program, args, after = () => {}) {
  const child = spawn(program, args, { stdio: 'inherit', env: { ...process.env, CALLED_FROM } });
  // Ctrl-C reaches the child from the terminal itself; a second signal would cut its stopping short.
  process.on('SIGINT', () => {});
  process.on('SIGTERM', () => child.kill('SIGTERM'));
  child.on('exit', (code, signal) => {
    after();
    process.exitCode = code ?? (signal ? 1 : 0);
  });
}

function isMissing({ command: tool, versionsIn, instead }) {
  if (instead !== undefined && process.env[instead] !== undefined) return false;
  const versions = versionsIn !== undefined && existsSync(versionsIn) ? readdirSync(versionsIn) : [];
  return !runs(tool) && !versions.some((version) => runs(join(versionsIn, version, 'bin', tool)));
}

function runs(program) {
  try {
    execFileSync(program, ['--version'], { stdio: 'ignore' });
    return true;
  } catch (error) {
    return error.code !== 'ENOENT';
  }
}

function hash(parts) {
  const sha = createHash('sha256');
  for (const part of parts) sha.update(part).update('\0');
  return sha.digest('hex');
}

function read(file) {
  return existsSync(file) ? readFileSync(file, 'utf8') : '';
}

function fail(message) {
  console.error(message);
  if (read(TURN) === String(process.pid)) rmSync(TURN, { force: true });
  process.exit(1);
}
