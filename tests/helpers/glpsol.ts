import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { LinearModel } from '../../src/solver/model.ts';

/**
 * glpsol as an opponent: a code from outside npm that shares nothing with the engines of the product.
 * Published source: A. Makhorin, GNU Linear Programming Kit, reference manual for version 5.0 (Debian package
 * glpk-utils).
 *
 * Its presolve is off: with it, absolute tolerances let rows in milligrams or tonnes go unkept. Its check in exact
 * arithmetic (--xcheck) is off too: it takes every number as the simple fraction within 1e-9 of it, which makes
 * limits that meet in one point cross (1.00000000012345 x = 10 gets x = 10). What is left is its simplex in doubles,
 * scaled, with a known weakness: where units lie far apart it is now and then wrong, with no word of it. A count
 * within 1e-5 of a whole one counts as whole.
 */
const OPTIONS = '--nopresol --nointopt --tmlim 20';

export const HOW_TO_INSTALL = 'glpsol is not installed; on Debian or Ubuntu: apt-get install glpk-utils';

export type GlpsolAnswer =
  | { readonly status: 'optimal'; readonly cost: number; readonly values: readonly number[] }
  | { readonly status: 'infeasible' | 'unbounded' }
  /** It gave up, by its own words. */
  | { readonly status: 'undecided' };

/** Whether glpsol can be run on this machine. */
export function glpsolIsHere(): boolean {
  return spawnSync('glpsol', ['--version']).status === 0;
}

/**
 * The answers of glpsol to all the models, in their order, to 15 digits. One child process works through them while
 * the caller does something else.
 */
export async function solveWithGlpsol(models: readonly LinearModel[]): Promise<GlpsolAnswer[]> {
  const folder = mkdtempSync(join(tmpdir(), 'meatblock-glpsol-'));
  try {
    models.forEach((model, index) => {
      writeFileSync(join(folder, `${index}.glp`), inGlpkFormat(model));
    });
    await shell(
      `for model in *.glp; do glpsol --glp $model ${OPTIONS} -w $model.sol > $model.log; done`,
      folder,
    );
    return models.map((model, index) => answerIn(join(folder, `${index}.glp`), model));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function shell(script: string, cwd: string): Promise<void> {
  return new Promise((done, failed) => {
    const child = spawn('sh', ['-c', script], { cwd, stdio: 'ignore' });
    child.on('error', failed);
    // The status is that of the last model alone; what became of each model stands in its own files.
    child.on('exit', () => done());
  });
}

/** GLPK format (reference manual, appendix "GLPK LP/MIP format"): numbered rows and columns, no names at all. */
function inGlpkFormat({ columns, rows }: LinearModel): string {
  const lines: string[] = [];
  const isWhole = columns.some(({ whole }) => whole);
  rows.forEach(({ lower, upper }, row) => {
    lines.push(`i ${row + 1} ${boundsText(lower, upper)}`);
  });
  columns.forEach(({ lower, upper, whole }, column) => {
    const kind = isWhole ? `${whole ? 'i' : 'c'} ` : '';
    lines.push(`j ${column + 1} ${kind}${boundsText(lower, upper)}`);
  });
  columns.forEach(({ cost }, column) => {
    if (cost !== 0) lines.push(`a 0 ${column + 1} ${cost}`);
  });
  let entries = 0;
  rows.forEach(({ terms }, row) => {
    const merged = new Map<number, number>();
    for (const { column, coefficient } of terms) {
      merged.set(column, (merged.get(column) ?? 0) + coefficient);
    }
    for (const [column, coefficient] of merged) {
      if (coefficient === 0) continue;
      lines.push(`a ${row + 1} ${column + 1} ${coefficient}`);
      entries++;
    }
  });
  const head = `p ${isWhole ? 'mip' : 'lp'} min ${rows.length} ${columns.length} ${entries}`;
  return `${[head, ...lines, 'e o f'].join('\n')}\n`;
}

function boundsText(lower: number, upper: number): string {
  if (lower === upper) return `s ${lower}`;
  if (Number.isFinite(lower)) return Number.isFinite(upper) ? `d ${lower} ${upper}` : `l ${lower}`;
  return Number.isFinite(upper) ? `u ${upper}` : 'f';
}

function answerIn(file: string, { columns, rows }: LinearModel): GlpsolAnswer {
  const log = readFileSync(`${file}.log`, 'utf8');
  const solution = `${file}.sol`;
  if (!existsSync(solution)) throw new Error(`glpsol wrote no solution: ${log}`);
  const lines = readFileSync(solution, 'utf8').split('\n');
  const [, kind, rowCount, columnCount, first, second] =
    lines.find((line) => line.startsWith('s '))?.split(' ') ?? [];
  if (Number(rowCount) !== rows.length || Number(columnCount) !== columns.length) {
    throw new Error(`glpsol read another model: ${log}`);
  }
  const status = kind === 'mip' ? wholeStatus(first, log) : continuousStatus(first, second);
  if (status !== 'optimal') return { status };
  // "j column value" of a model with whole columns, "j column state value price" of one without.
  const values = lines
    .filter((line) => line.startsWith('j '))
    .map((line) => Number(line.split(' ')[kind === 'mip' ? 2 : 3]));
  if (values.length !== columns.length) throw new Error(`glpsol gave ${values.length} values`);
  const cost = columns.reduce((total, column, index) => total + column.cost * (values[index] ?? 0), 0);
  return { status, cost, values };
}

function continuousStatus(primal = '', dual = ''): GlpsolAnswer['status'] {
  if (primal === 'n') return 'infeasible';
  if (primal === 'f' && dual === 'f') return 'optimal';
  return primal === 'f' && dual === 'n' ? 'unbounded' : 'undecided';
}

/** Where the model has no point even in fractions, the file says "undefined" and the log says why. */
function wholeStatus(status = '', log = ''): GlpsolAnswer['status'] {
  if (status === 'o') return 'optimal';
  if (status === 'n' || log.includes('NO PRIMAL FEASIBLE')) return 'infeasible';
  return log.includes('UNBOUNDED') ? 'unbounded' : 'undecided';
}
