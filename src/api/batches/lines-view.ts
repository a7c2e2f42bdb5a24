import { printedWeight } from '../../batch/scale.ts';
import { kilogramsOfMicrograms, micrograms } from '../../ledger/micrograms.ts';
import type { Step } from '../../making/batch.ts';
import { isCure } from '../../making/cure.ts';
import type { Place } from '../../making/weighing.ts';
import { inBothUnits } from '../answers.ts';
import type { BatchAnswer } from './contract.ts';
import type { OpenedBatch } from './opened.ts';

/** Lines of a batch as whoever weighs them needs them: what, from where, on which scale, how near, and what is there. */
export function linesView(opened: OpenedBatch, places: readonly Place[]): BatchAnswer['lines'] {
  return [...new Set(places.map(({ line }) => line))].map((line) => ({
    ...lineView(opened, line),
    loads: places
      .filter((place) => place.line === line)
      .map(({ load, plannedUg, weighedUg, restUg, tolerance, weighings }) => ({
        load,
        planned: ofUg(plannedUg),
        weighed: ofUg(weighedUg),
        rest: ofUg(restUg),
        tolerance: { under: ofUg(tolerance.underUg), over: ofUg(tolerance.overUg) },
        weighings: weighings.map((step) => ({
          step: step.number,
          ...(step.body.lotId !== undefined && { lotId: step.body.lotId }),
          weight: { ...step.body.weight },
          ...(step.body.reason !== undefined && { reason: step.body.reason }),
          ...who(step),
        })),
      })),
  }));
}

function lineView(
  { basis, supplies }: OpenedBatch,
  line: Place['line'],
): Omit<BatchAnswer['lines'][number], 'loads'> {
  const scale = basis.plant.scales.find(({ id }) => id === line.scaleId);
  const supply = supplies.get(line.supplyId);
  const { boxKg, location } = supply?.lot ?? {};
  return {
    number: line.number,
    material: line.material,
    materialId: line.materialId,
    supplyId: line.supplyId,
    ...(line.lotId !== undefined && { lotId: line.lotId }),
    perLoad: { ...line.perLoad },
    scale: scale?.name ?? line.scaleId,
    ...(scale && {
      division: { value: printedWeight(scale, 1).text, unit: scale.unit },
      drafts: Math.ceil(line.perLoadUg / micrograms(String(scale.capacity), scale.unit)),
    }),
    cure: supply !== undefined && isCure(supply.material),
    ...(location !== undefined && { location }),
    ...(boxKg !== undefined && { boxes: boxesOf(line.perLoadUg, boxKg) }),
    ...(line.ofCorrection !== undefined && { ofCorrection: line.ofCorrection }),
  };
}

/** Full boxes of one load, and what comes from an opened one. */
function boxesOf(massUg: number, boxKg: number): { full: number; rest: { kg: number; lb: number } } {
  const boxUg = micrograms(String(boxKg), 'kg');
  const full = Math.floor(massUg / boxUg);
  return { full, rest: ofUg(massUg - full * boxUg) };
}

export function ofUg(massUg: number): { kg: number; lb: number } {
  return inBothUnits(kilogramsOfMicrograms(massUg));
}

export function who({ person, at }: Step): { by: string; at: string } {
  return { by: person, at };
}
