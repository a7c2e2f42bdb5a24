import { readFileSync } from 'node:fs';
import { blend, type Desk, label, sheet } from '../api/blending.ts';
import { dateSchema } from '../api/contract/quantities.ts';
import { correction } from '../api/correcting.ts';
import { curve } from '../api/curves.ts';
import { notJson, Problem } from '../api/problem.ts';
import { listTrim } from '../api/resources.ts';
import { listRules } from '../api/rules.ts';
import { fromWhereCalled } from '../api/settings.ts';
import { usePlan } from '../api/use-planning.ts';
import { batchSheetText } from '../documents/batch-sheet-text.ts';
import { correctionText } from '../documents/correction-text.ts';
import { curveText } from '../documents/curve-text.ts';
import { explanationText } from '../documents/explanation-text.ts';
import { labelText } from '../documents/label-text.ts';
import { limitsText } from '../documents/limits-text.ts';
import { trimText } from '../documents/trim-text.ts';
import { usePlanText } from '../documents/use-plan-text.ts';
import { wayOutText } from '../documents/way-out-text.ts';
import { ENGINE_NAMES, type EngineName } from '../solver/engine-names.ts';
import { type Options, PRINT_ONLY, UsageError } from './arguments.ts';
import { openDesk } from './desk.ts';
import { EXIT } from './exit.ts';
import { paperOf } from './paper-options.ts';

/** Commands that work something out, or list what the plant and its rules are. */

/** @returns the exit code. @throws UsageError, Problem, TableError. */
export async function deskCommand(
  command: string,
  operand: string | undefined,
  options: Options,
): Promise<number> {
  for (const option of PRINT_ONLY) {
    if (options[option] !== undefined) throw new UsageError(`--${option} is for print`);
  }
  const paper = paperOf(command, options);
  const desk = await openDesk(options, engineOf(options.engine));
  const print = <Answer>(answer: Answer, text: (answer: Answer) => string) =>
    console.log(options.json ? JSON.stringify(answer, null, 2) : text(answer));
  // Only a PDF waits for what draws it.
  if (paper.file !== undefined) {
    const { printDesk } = await import('./desk-papers.ts');
    await printDesk(command, desk, readRequest(operand), { ...paper, file: paper.file }, options);
    return EXIT.done;
  }
  switch (command) {
    case 'sheet':
      print(await sheet(desk, readRequest(operand)), (found) => batchSheetText(found, paper.language));
      return EXIT.done;
    case 'label':
      print(await label(desk, readRequest(operand)), labelText);
      return EXIT.done;
    case 'pack-label': {
      const { labelOfBlend } = await import('../api/labels/make.ts');
      console.log(JSON.stringify(await labelOfBlend(desk, readRequest(operand)), null, 2));
      return EXIT.done;
    }
    case 'blend': {
      const answer = await blend(desk, readRequest(operand));
      console.log(JSON.stringify(answer, null, 2));
      return answer.outcome === 'blend' ? EXIT.done : EXIT.noBlend;
    }
    case 'explain': {
      const answer = await blend(desk, readRequest(operand));
      if (answer.outcome === 'no blend') {
        print(answer, wayOutText);
        return EXIT.noBlend;
      }
      print(answer, explanationText);
      return EXIT.done;
    }
    case 'curve': {
      const answer = await curve(desk, readRequest(operand));
      print(answer, curveText);
      return answer.outcome === 'curve' ? EXIT.done : EXIT.noBlend;
    }
    case 'correct': {
      const answer = await correction(desk, readRequest(operand));
      print(answer, correctionText);
      return answer.outcome === 'cannot be brought back' ? EXIT.noBlend : EXIT.done;
    }
    case 'use-up':
      print(await usePlan(desk, readRequest(operand)), usePlanText);
      return EXIT.done;
    case 'trim':
      print(listTrim(desk), trimText);
      return EXIT.done;
    case 'limits':
      print(limitsOf(desk, operand, options), limitsText);
      return EXIT.done;
    case 'classes':
      print(classesOf(desk, options), ({ standards }) =>
        standards
          .map(({ productClass, says, citation }) => `${productClass}  ${says} (${citation})`)
          .join('\n'),
      );
      return EXIT.done;
    case 'products':
      print(
        [...desk.data.products.values()].map(({ json }) => json),
        () =>
          [...desk.data.products.values()].map(({ product }) => `${product.id}  ${product.name}`).join('\n'),
      );
      return EXIT.done;
    default:
      throw new UsageError(`"${command}" is no command`);
  }
}

function engineOf(name: string | undefined): EngineName | undefined {
  const found = ENGINE_NAMES.find((engine) => engine === name);
  if (name !== undefined && !found) {
    throw new UsageError(`--engine ${name}: choose one of ${ENGINE_NAMES.join(', ')}`);
  }
  return found;
}

function readRequest(file: string | undefined): unknown {
  if (file === undefined) throw new UsageError('name a JSON file, or - for standard input');
  const text = readText(file);
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    throw notJson(file === '-' ? 'Standard input' : file, error as Error);
  }
}

function readText(file: string): string {
  try {
    return readFileSync(file === '-' ? 0 : fromWhereCalled(file, process.env), 'utf8');
  } catch (error) {
    throw new Problem('not-found', `${file} cannot be read: ${(error as Error).message}.`);
  }
}

/** Limits of a product of the plant, or of a class when no product has that id. */
function limitsOf(desk: Desk, name: string | undefined, where: WhereAndWhen) {
  if (name === undefined) throw new UsageError('name a product or a product class');
  const place = where.market === undefined ? {} : { jurisdiction: where.market };
  const what = desk.data.products.has(name) ? { product: name } : { productClass: name };
  return listRules(desk, { ...place, ...what, ...dayOf(where) });
}

function classesOf(desk: Desk, where: WhereAndWhen) {
  return listRules(desk, {
    ...(where.market !== undefined && { jurisdiction: where.market }),
    ...dayOf(where),
  });
}

interface WhereAndWhen {
  readonly date?: string | undefined;
  readonly market?: string | undefined;
}

function dayOf({ date }: WhereAndWhen): { date?: string } {
  if (date === undefined) return {};
  if (dateSchema.safeParse(date).success) return { date };
  throw new UsageError(`--date ${date}: write a calendar day such as 2026-11-25`);
}
