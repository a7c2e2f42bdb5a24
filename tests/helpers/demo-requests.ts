import { prepareBlend } from '../../src/api/blend-task.ts';
import { blendRequestSchema } from '../../src/api/contract/blend-request.ts';
import { loadPlant } from '../../src/api/load-plant.ts';
import { type Supply, supplyOfLot, supplyOfMaterial } from '../../src/batch/lot.ts';
import type { Material } from '../../src/batch/material.ts';
import type { FormulationRequest } from '../../src/formulate/request.ts';
import { RULE_SETS } from '../../src/standards/all.ts';
import { ENGINES } from './engines.ts';

/** The demo plant, as the service has it. */
export const DEMO = loadPlant('demo-data', 'ingredient-tables', RULE_SETS);

const inLots = new Set(DEMO.lots.map(({ materialId }) => materialId));

/** What the demo plant has and can buy, each lot with its own figure or that of its class. */
export const DEMO_SUPPLIES: readonly Supply[] = [
  ...DEMO.lots.map((lot) => supplyOfLot(lot, demoMaterial(lot.materialId))),
  ...[...DEMO.prices].flatMap(([id, costPerKg]) =>
    inLots.has(id) ? [] : [supplyOfMaterial(demoMaterial(id), costPerKg)],
  ),
];

export function demoMaterial(id: string): Material {
  const found = DEMO.materials.get(id);
  if (!found) throw new RangeError(`no material ${id}`);
  return found;
}

/** A request in the form of the API, made ready for the use-cases, with the engines of the product. */
export function demoRequest(body: unknown): FormulationRequest {
  const prepared = prepareBlend(blendRequestSchema.parse(body), DEMO, RULE_SETS, '2026-11-25');
  if (!prepared.ok) throw new Error(JSON.stringify(prepared.issues));
  return { ...prepared.task, engines: ENGINES };
}

/** A product of the demo plant as its file has it, to be edited. */
// biome-ignore lint/suspicious/noExplicitAny: tests edit it into other products.
export function demoProductJson(id: string): any {
  return structuredClone(DEMO.products.get(id)?.json);
}

export const pounds = (value: number) => ({ value, unit: 'lb' });
