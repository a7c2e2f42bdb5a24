import { sourceOf } from '../rules/limit.ts';
import { fixed } from '../units.ts';
import type { BatchSheet, ProofLine } from './batch-sheet.ts';

/** The limits of a sheet as people read them: a row for each that the batch touches, the rest in one sentence. */
export interface ProofRows {
  readonly touched: readonly ProofRow[];
  /** Maxima of which the batch holds nothing, each with its rule. */
  readonly absent: readonly string[];
}

export interface ProofRow {
  readonly line: ProofLine;
  readonly found: string;
  readonly limit: string;
  /** How far the figure is from the bound, on the side that is allowed; empty where there is no such side. */
  readonly room: string;
  readonly rule: string;
}

export function proofRows({ proof, currency }: Pick<BatchSheet, 'proof' | 'currency'>): ProofRows {
  return {
    absent: proof.filter(isAbsent).map((line) => `${line.what} (${sourceOf(line)})`),
    touched: proof
      .filter((line) => !isAbsent(line) && !isSelfEvident(line))
      .map((line) => ({
        line,
        found: foundText(line, currency),
        limit: boundText(line, currency),
        room: roomText(line, currency),
        rule: sourceOf(line),
      })),
  };
}

/** The limits of which the batch holds nothing, in one sentence. */
export function noneOf(absent: readonly string[]): string {
  return `None of these limited things is in the batch: ${absent.join('; ')}.`;
}

function isAbsent({ sense, value, holds }: ProofLine): boolean {
  return holds && sense === 'max' && value === 0;
}

function isSelfEvident({ sense, bound, holds }: ProofLine): boolean {
  return holds && sense === 'min' && bound === 0;
}

function foundText({ value, sense, unit }: ProofLine, currency: string): string {
  if (sense === 'present') return 'there';
  const figure = figureText(value, unit, currency);
  return value < 0 ? `none (${figure})` : figure;
}

function boundText({ bound, sense, unit }: ProofLine, currency: string): string {
  if (sense === 'present') return 'must be';
  return `${sense === 'target' ? 'just' : sense} ${bound} ${unitSign(unit, currency)}`;
}

function roomText({ value, bound, sense, unit }: ProofLine, currency: string): string {
  if (sense === 'present' || sense === 'target') return '';
  return figureText(sense === 'max' ? bound - value : value - bound, unit, currency);
}

function figureText(value: number, unit: string, currency: string): string {
  return `${fixed(value, unit === 'ppm' ? 1 : 3)} ${unitSign(unit, currency)}`;
}

function unitSign(unit: string, currency: string): string {
  if (unit === 'percent') return '%';
  return unit === 'price per kg' ? `${currency}/kg` : unit;
}
