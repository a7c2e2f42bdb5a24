import { carries, RESTRICTED } from '../../batch/carries.ts';
import { ingredientsOf } from '../../batch/made-of.ts';
import type { Material, Substance } from '../../batch/material.ts';
import {
  RESTRICTED_NOTES,
  RESTRICTED_TITLE,
  type RestrictedEntry,
} from '../../documents/logs/restricted-ingredients.ts';
import { type StepOf, stepsOf } from '../../making/batch.ts';
import { linesOf, supplyOf } from '../../making/weighing.ts';
import { formsOf } from '../../rules/form.ts';
import { batchesWithSteps, type Days, type LoggedBatch } from '../../store/logs.ts';
import type { Db } from '../../store/open.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import { timeAt } from './times.ts';

/** Water that is put in is a matter of yield and label, not of an ingredient that could do harm. */
const LOGGED = RESTRICTED.filter((substance) => substance !== 'free water');

/** Every weighing of these days of a material that carries a restricted substance, with how its limits stand. */
export async function restrictedLog(db: Db, { plant: { timeZone } }: PlantBooks, days: Days) {
  const items: RestrictedEntry[] = [];
  for await (const batch of batchesWithSteps(db, ['weighing'], days)) {
    const ofDays = stepsOf(batch.steps, 'weighing').filter(
      ({ day }) => day >= days.fromDay && day <= days.toDay,
    );
    for (const weighing of ofDays) items.push(...entriesOf(batch, weighing, timeZone));
  }
  items.sort((one, other) => Date.parse(one.weighedAt.at) - Date.parse(other.weighedAt.at));
  return { title: RESTRICTED_TITLE, notes: RESTRICTED_NOTES, items };
}

function entriesOf(batch: LoggedBatch, weighing: StepOf<'weighing'>, timeZone: string): RestrictedEntry[] {
  const { steps, supplies, basis, row } = batch;
  const { load, line, lotId, weight } = weighing.body;
  const { material } = supplyOf(weighing.body, supplies);
  const substances = carriedBy(material);
  if (substances.length === 0) return [];
  const planned = linesOf(steps).find(({ number }) => number === line)?.perLoad;
  const takenBack = stepsOf(steps, 'taken back').find(({ body }) => body.step === weighing.number);
  return [
    {
      batchId: row.id,
      product: basis.product.name,
      load,
      material: material.name,
      ...(lotId !== undefined && { lotId }),
      substances,
      ...(planned && { planned: `${planned.value} ${planned.unit}` }),
      weighed: `${weight.value} ${weight.unit}`,
      ...(takenBack && { takenBack: takenBack.body.reason }),
      standing: takenBack ? [] : standingFor(batch, substances),
      weighedAt: timeAt(timeZone, weighing.at),
      by: weighing.person,
    },
  ];
}

/** Restricted substances in a material, in what rework is made of too. */
function carriedBy(material: Material): Substance[] {
  const parts = [material, ...ingredientsOf(material).map((part) => part.material)];
  return LOGGED.filter((substance) => parts.some((part) => carries(part, [substance])));
}

/** The limits that count one of these substances, as they stood when everything was weighed in. */
function standingFor(
  { steps, basis }: LoggedBatch,
  substances: readonly Substance[],
): RestrictedEntry['standing'] {
  const counting = basis.standard.limits
    .filter(({ numerator }) =>
      formsOf(numerator).some(({ terms }) =>
        terms.some(
          ({ of }) => typeof of === 'object' && 'substance' in of && substances.includes(of.substance),
        ),
      ),
    )
    .map(({ id }) => id);
  const limits = stepsOf(steps, 'weighed').at(-1)?.body.limits ?? [];
  return limits
    .filter(({ limitId }) => counting.includes(limitId))
    .map(({ says, value, bound, unit, holds, citation, load }) => ({
      says,
      value,
      bound,
      unit,
      holds,
      citation,
      ...(load !== undefined && { load }),
    }));
}
