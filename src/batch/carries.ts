import type { Material, MaterialKind, Substance } from './material.ts';

/** Whether a material carries any of these substances, whatever it is called. */
export function carries({ substances }: Pick<Material, 'substances'>, wanted: readonly Substance[]): boolean {
  return wanted.some((substance) => (substances[substance] ?? 0) > 0);
}

/** Substances whose limits a batch must never round past; a mix that carries one is treated like it. */
export const RESTRICTED: readonly Substance[] = [
  'nitrite',
  'nitrate',
  'ascorbic acid',
  'sodium ascorbate',
  'citric acid',
  'phosphate',
  'BHA',
  'BHT',
  'propyl gallate',
  'TBHQ',
  'lactate',
  'diacetate',
  'isolated soy protein',
  'sodium caseinate',
  'free water',
];

export const CURING_AGENTS: readonly Substance[] = ['nitrite', 'nitrate'];
export const ACCELERATORS: readonly Substance[] = ['ascorbic acid', 'sodium ascorbate'];
export const ANTIOXIDANTS: readonly Substance[] = ['BHA', 'BHT', 'propyl gallate', 'TBHQ'];

/** What a material of these kinds is there for: without a figure for it no limit could count it. */
const MUST_CARRY: Readonly<Partial<Record<MaterialKind, readonly Substance[]>>> = {
  cure: CURING_AGENTS,
  'cure accelerator': [...ACCELERATORS, 'citric acid'],
  phosphate: ['phosphate'],
  antimicrobial: ['lactate', 'diacetate'],
  antioxidant: ANTIOXIDANTS,
};

/** What is missing from a material whose kind is restricted, in words; undefined when nothing is. */
export function missingSubstance(material: Pick<Material, 'kind' | 'substances'>): string | undefined {
  const wanted = MUST_CARRY[material.kind];
  if (!wanted || carries(material, wanted)) return undefined;
  return `a ${material.kind} must say how much it carries of ${wanted.join(' or ')}`;
}
