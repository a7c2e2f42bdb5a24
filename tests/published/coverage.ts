import { forbiddenBy } from '../../src/rules/eligibility.ts';
import { FORMS } from '../../src/rules/forms.ts';
import type { Limit } from '../../src/rules/limit.ts';
import { LIMITS_BY_ID, RAW, standardOf, testSupply } from '../helpers/materials.ts';
import { ROWS } from './all-rows.ts';
import type { Mark, PublishedRow } from './row.ts';

/** How a limit stands to what others have published. */
export interface Coverage {
  readonly limit: Limit;
  /** Checks against a published text or figure. */
  readonly outside: number;
  /** Checks worked out on paper from a rule that was read. */
  readonly constructed: number;
}

const OUTSIDE: readonly Mark[] = ['official', 'secondary', 'common practice'];

/** Every limit with the count of rows that check it. */
export function coverage(): Coverage[] {
  const marks = new Map<string, Mark[]>([...LIMITS_BY_ID.keys()].map((id) => [id, []]));
  for (const row of ROWS) for (const id of limitsOf(row)) marks.get(id)?.push(row.mark);
  return [...LIMITS_BY_ID.values()].map((limit) => {
    const of = marks.get(limit.id) ?? [];
    return {
      limit,
      outside: of.filter((mark) => OUTSIDE.includes(mark)).length,
      constructed: of.filter((mark) => mark === 'constructed').length,
    };
  });
}

/** Which limits a row checks: the one it names, the one that keeps a material out, those that share its ratio. */
function limitsOf(row: PublishedRow): string[] {
  if ('limitId' in row) return [row.limitId];
  if (row.kind === 'entry') {
    const by = forbiddenBy(
      standardOf(row.productClass, row.jurisdiction).limits,
      testSupply(row.materialId),
      RAW,
    );
    return by ? [by.id] : [];
  }
  if (row.kind !== 'value') return [];
  return [...LIMITS_BY_ID.values()]
    .filter(({ numerator, basis }) => numerator === FORMS[row.numerator] && basis === FORMS[row.basis])
    .map(({ id }) => id);
}

/** The same as a page: totals for each jurisdiction, then every limit that nothing outside has checked. */
export function coverageText(): string {
  const all = coverage();
  const places = [...new Set(all.map(({ limit }) => placeOf(limit)))];
  const of = (place: string) => all.filter(({ limit }) => placeOf(limit) === place);
  const without = all.filter(({ outside }) => outside === 0);
  const rows = places.map((place) => {
    const own = of(place);
    const withOutside = own.filter(({ outside }) => outside > 0).length;
    const read = (mark: Limit['read']) => own.filter(({ limit }) => limit.read === mark).length;
    return `| ${place} | ${own.length} | ${read('official')} | ${read('secondary')} | ${read('from memory')} | ${withOutside} | ${own.length - withOutside} |`;
  });
  return [
    '# Which limits have been checked against something published',
    '',
    `${ROWS.length} published checks stand in \`tests/published\`. A check counts as outside when its answer was read in`,
    'an official text or in a text that quotes one; what was worked out on paper from a rule does not count here.',
    '',
    '| market | limits | read official | secondary | from memory | with an outside check | without |',
    '| --- | --- | --- | --- | --- | --- | --- |',
    ...rows,
    '',
    '## Limits without an outside check',
    '',
    'They are tested (each at its bound, each against the row of the linear problem), but nobody else has printed an',
    'answer that they were held against. Limits of nothing, which keep a material out, are most of them.',
    '',
    '| limit | says | source | read |',
    '| --- | --- | --- | --- |',
    ...without.map(
      ({ limit: { id, says, citation, read } }) => `| ${id} | ${says} | ${citation} | ${read} |`,
    ),
    '',
  ].join('\n');
}

function placeOf({ id }: Limit): string {
  return id.slice(0, id.indexOf('-'));
}
