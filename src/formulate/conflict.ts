import { sourceOf } from '../rules/limit.ts';
import { conflictOf } from '../solver/conflict.ts';
import type { FreeRow, Group } from '../solver/groups.ts';
import type { Engine } from '../solver/model.ts';
import { type MassUnit, massText } from '../units.ts';
import { type BatchModel, MOST_BATCH_KG } from './batch-model.ts';
import type { ConflictPart } from './blend.ts';
import type { Problem } from './prepare.ts';

interface NamedGroup extends Group {
  readonly part: ConflictPart;
}

/** A size that is let go may be anything down to this share of it: a batch of nothing would keep every limit. */
const LEAST_SHARE = 0.001;

const letGo = (row: number): FreeRow => ({
  row,
  lower: Number.NEGATIVE_INFINITY,
  upper: Number.POSITIVE_INFINITY,
});

/**
 * What cannot hold together when there is no blend: limits, fixed lines, the size, stocks and least amounts of lots.
 * At least one of them has to give, and of these alone any one would do; what was left out may then stand in the way.
 * @param model the problem's own, with the planes that confidence needed.
 */
export function conflictIn(
  model: BatchModel,
  problem: Problem,
  units: MassUnit,
  engines: readonly Engine[],
): ConflictPart[] {
  const groups = groupsOf(model, problem, units);
  return (conflictOf(model, groups, engines) ?? []).flatMap((index) => groups[index]?.part ?? []);
}

/** The law and the lots first: what can be dropped without them is dropped, and what is left is the house's own. */
function groupsOf(model: BatchModel, { size, coefficients }: Problem, units: MassUnit): NamedGroup[] {
  const limits = new Map<string, NamedGroup & { rows: FreeRow[] }>();
  for (const [row, limit] of model.limitOfRow) {
    const known = limits.get(limit.id);
    if (known) known.rows.push(letGo(row));
    else {
      const kind = limit.authority === 'law' ? 'law' : 'house';
      const says = limit.authority === 'law' ? `${limit.says} (${sourceOf(limit)})` : limit.says;
      limits.set(limit.id, { rows: [letGo(row)], ends: [], part: { kind, limitId: limit.id, says } });
    }
  }
  const lines = model.rows.flatMap(({ name }, row): NamedGroup[] =>
    row === 0 || model.limitOfRow.has(row) || !name.startsWith('line ')
      ? []
      : [
          {
            rows: [letGo(row)],
            ends: [],
            part: { kind: 'line', says: `The rate of ${name.slice('line '.length)}.` },
          },
        ],
  );
  const lots = coefficients.supplies.flatMap((supply, column): NamedGroup[] => {
    const { lower = 0, upper = MOST_BATCH_KG } = model.columns[column] ?? {};
    const most: NamedGroup[] =
      upper < MOST_BATCH_KG
        ? [
            {
              rows: [],
              ends: [{ column, end: 'upper', to: MOST_BATCH_KG }],
              part: {
                kind: 'stock',
                supplyId: supply.id,
                says: `${supply.id}: at most ${massText(upper, units)}.`,
              },
            },
          ]
        : [];
    const least: NamedGroup[] =
      lower > 0
        ? [
            {
              rows: [],
              ends: [{ column, end: 'lower', to: 0 }],
              part: {
                kind: 'demand',
                supplyId: supply.id,
                says: `${supply.id}: at least ${massText(lower, units)}.`,
              },
            },
          ]
        : [];
    return [...most, ...least];
  });
  const byAuthority = [...limits.values()].sort(
    (a, b) => Number(a.part.kind === 'house') - Number(b.part.kind === 'house'),
  );
  const whole: NamedGroup = {
    rows: [{ row: 0, lower: LEAST_SHARE * size.massKg, upper: Number.POSITIVE_INFINITY }],
    ends: [],
    part: {
      kind: 'size',
      says: `The size of the batch: ${massText(size.massKg, units)} (${size.form.says}).`,
    },
  };
  return [...lots, ...byAuthority, ...lines, whole];
}
