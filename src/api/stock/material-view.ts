import type { Material } from '../../batch/material.ts';
import type { MaterialAnswer } from '../contract/resources.ts';

/** Materials as answers show them. */

export function noMaterial(id: string): string {
  return `No material has the id "${id}". GET /v1/materials?search=… finds one.`;
}

/** @param version of one that the plant writes; those of the tables and rework have none. */
export function shownMaterial(material: Material, own: boolean, version: number | undefined): MaterialAnswer {
  const { trimLine: _, madeOf, substances, allergens, subIngredients, ...plain } = material;
  return {
    ...plain,
    substances: { ...substances },
    allergens: [...allergens],
    subIngredients: [...subIngredients],
    own,
    ...(version !== undefined && { version }),
    ...(madeOf && {
      madeOf: madeOf.map(({ material: part, fraction }) => ({
        materialId: part.id,
        material: part.name,
        fraction,
      })),
    }),
  };
}
