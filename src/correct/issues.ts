import { isMeat } from '../batch/material.ts';
import { compare, ZERO } from '../exact.ts';
import { fixed } from '../units.ts';
import type { CorrectionIssue, CorrectionRequest } from './correction.ts';
import { type MixLine, possibleFat } from './tested-mix.ts';

/** Everything about a correction that can be seen to be wrong before it is worked on. */
export function findIssues(request: CorrectionRequest, inMixer: readonly MixLine[]): CorrectionIssue[] {
  const { testedFat, confidence, capacityKg } = request;
  const issues: CorrectionIssue[] = [];
  const refuse = (code: CorrectionIssue['code'], path: CorrectionIssue['path'], message: string) =>
    issues.push({ code, path, message });
  request.inMixer.forEach(({ supply, massKg }, index) => {
    if (compare(massKg, ZERO) > 0) return;
    refuse('empty-mixer', ['inMixer', index, 'mass'], `${supply.id} weighs nothing; take the line out.`);
  });
  if (!inMixer.some(({ supply }) => isMeat(supply.material))) {
    refuse('empty-mixer', ['inMixer'], 'No meat is in the mixer; give what was weighed in.');
  }
  const isShare = (value: number) => value >= 0 && value <= 1;
  if (!isShare(testedFat.fatFraction)) {
    const message = `${testedFat.fatFraction}: it must be a fraction from 0 to 1, such as 0.23 for 23 %.`;
    refuse('impossible-test', ['testedFat', 'fatFraction'], message);
  }
  if (!(testedFat.sdFraction >= 0 && testedFat.sdFraction <= 1)) {
    const message = `${testedFat.sdFraction}: it must be a fraction from 0 to 1, such as 0.006 for 0.6 points.`;
    refuse('impossible-test', ['testedFat', 'sdFraction'], message);
  }
  if (confidence !== undefined && !(confidence > 0.5 && confidence < 1)) {
    const message = `${confidence}: it must be above 0.5 and below 1, such as 0.9; leave it out to take the test as it is.`;
    refuse('bad-confidence', ['confidence'], message);
  }
  if (capacityKg !== undefined && !(capacityKg > 0 && Number.isFinite(capacityKg))) {
    refuse(
      'bad-capacity',
      ['capacity'],
      `${capacityKg} kg: a mixer holds more than nothing; give what it holds.`,
    );
  }
  return issues;
}

/** The test says of the mix what no meat can make it. */
export function impossibleTest(
  { testedFat }: CorrectionRequest,
  inMixer: readonly MixLine[],
): CorrectionIssue {
  const { least, most } = possibleFat(inMixer);
  const shown = (fraction: number) => fixed(fraction * 100, 2);
  return {
    code: 'impossible-test',
    path: ['testedFat', 'fatFraction'],
    message: `${testedFat.fatFraction}: whatever its meat is, this mix holds from ${shown(least)} to ${shown(most)} % fat. Test again, or correct what was weighed in.`,
  };
}
