import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Limit } from '../../src/rules/limit.ts';
import { shownBound } from '../../src/rules/limit.ts';
import type { LaboratoryLimit, RuleSet, Standard } from '../../src/rules/standard.ts';
import { RULE_SETS } from '../../src/standards/all.ts';
import { coverageText } from '../published/coverage.ts';

/**
 * The pages that list every limit are made from the very data that limits batches.
 * `UPDATE_DOCS=1 npx vitest run tests/docs/rules.test.ts` writes them anew; read the difference before keeping it.
 */
const ROOT = join(import.meta.dirname, '../..');
const UPDATE = process.env.UPDATE_DOCS === '1';

function rulesMarkdown({ says, edition, knownFrom, standards }: RuleSet): string {
  return [
    `# Rules: ${says}`,
    '',
    'Made from the data in `src/standards`; do not edit. Local rules, the inspector and the HACCP plan of the plant come',
    'before this page.',
    '',
    `Text read: ${edition}. Known from ${knownFrom}.`,
    '',
    ...standards.flatMap(standardMarkdown),
  ].join('\n');
}

function standardMarkdown({
  productClass,
  says,
  citation,
  cooking,
  limits,
  laboratory = [],
}: Standard): string[] {
  return [
    `## ${says}`,
    '',
    `\`${productClass}\`, ${citation}; sold ${cooking.join(' or ')}.`,
    '',
    '| limit | of | bound | source | read | in force |',
    '| --- | --- | --- | --- | --- | --- |',
    ...limits.map(limitMarkdown),
    '',
    ...(laboratory.length > 0 ? ['Needs a laboratory test, which no formula can replace:', ''] : []),
    ...laboratory.map(laboratoryMarkdown),
    ...(laboratory.length > 0 ? [''] : []),
  ];
}

function limitMarkdown(limit: Limit): string {
  const { id, says, numerator, basis, citation, read, note } = limit;
  const sentence = note ? `${says} *${note}*` : says;
  return `| ${sentence} (\`${id}\`) | ${numerator.says} / ${basis.says} | ${boundText(limit)} | ${citation} | ${read} | ${span(limit)} |`;
}

function boundText(limit: Limit): string {
  if (limit.sense === 'present') return 'must be there';
  if (limit.sense === 'max' && limit.bound === 0) return 'none';
  const words = { max: 'at most', min: 'at least', target: 'just' };
  return `${words[limit.sense]} ${shownBound(limit)} ${limit.unit === 'percent' ? '%' : limit.unit}`;
}

function laboratoryMarkdown(limit: LaboratoryLimit): string {
  const when = span(limit) === '' ? '' : `; ${span(limit)}`;
  return `- ${limit.says} (${limit.citation}; ${limit.read}${when})${limit.note ? ` *${limit.note}*` : ''}`;
}

function span({ inForce }: Pick<Limit, 'inForce'>): string {
  const from = inForce?.from ? `from ${inForce.from}` : '';
  const until = inForce?.until ? `until the day before ${inForce.until}` : '';
  return [from, until].filter(Boolean).join(' ');
}

function expectPage(file: string, text: string): void {
  const path = join(ROOT, file);
  if (UPDATE) writeFileSync(path, text);
  expect(readFileSync(path, 'utf8')).toBe(text);
}

describe('the pages of rules', () => {
  it.each(RULE_SETS.map((ruleSet) => [ruleSet.jurisdiction, ruleSet] as const))(
    'say what the data says: %s',
    (jurisdiction, ruleSet) => {
      expectPage(`docs/rules/${jurisdiction}.md`, rulesMarkdown(ruleSet));
    },
  );

  it('say which limits have an outside check', () => {
    expectPage('docs/published-checks.md', coverageText());
  });
});
