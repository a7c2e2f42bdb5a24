import { type Material, SPECIES, type Species } from '../../batch/material.ts';
import { type Named, speciesOf } from './named.ts';

/** Whether a casing is eaten; its name tells, and the plant knows. */
export function isEdible({ declaredName }: Pick<Material, 'declaredName'>): boolean {
  return !/fib(er|re|rous)|plastic|cellulose|cloth|inedible/i.test(declaredName);
}

export function isCollagen({ declaredName }: Pick<Material, 'declaredName'>): boolean {
  return /collagen/i.test(declaredName);
}

/** Whether a natural casing is of another species than the meat, or of one that nothing tells. */
export function isOfOtherSpecies(casing: Material, named: Named): boolean {
  const species = casing.species ?? speciesInName(casing.declaredName);
  const meat = speciesOf(named);
  return !(species && meat.size === 1 && meat.has(species));
}

function speciesInName(name: string): Species | undefined {
  const words = name.toLowerCase();
  if (/\bsheep\b/.test(words)) return 'lamb';
  if (/\bhogs?\b/.test(words)) return 'pork';
  return SPECIES.find((species) => words.includes(species));
}
