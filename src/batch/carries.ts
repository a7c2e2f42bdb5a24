import type { Material, MaterialKind, Substance } from './material.ts';

/** Whether a material carries any of these substances, whatever it is called. */
export function carries({ substances }: Pick<Material, 'substances'>, wanted: readonly Substance[]): boolean {
  return wanted.some((substance) => (substances[substance] ?? 0) > 0);
}

/** How much of these substances together a material carries, as a fraction of it. */
export function carriedFraction({ substances }: Pick<Material, 'substances'>, wanted: readonly Substance[]) {
  return wanted.reduce((total, substance) => total + (substances[substance] ?? 0), 0);
}

/** Substances whose limits a batch must never round past; a mix that carries one is treated like it. */
export const RESTRICTED: readonly Substance[] = [
  'sodium nitrite',
  'potassium nitrite',
  'sodium nitrate',
  'potassium nitrate',
  'ascorbic acid',
  'erythorbic acid',
  'sodium ascorbate',
  'sodium erythorbate',
  'sodium erythorbate monohydrate',
  'citric acid',
  'fumaric acid',
  'glucono delta lactone',
  'phosphate',
  'P2O5',
  'sodium acid pyrophosphate',
  'sulfur dioxide',
  'BHA',
  'BHT',
  'propyl gallate',
  'TBHQ',
  'tocopherols',
  'lactate',
  'diacetate',
  'isolated soy protein',
  'sodium caseinate',
  'soy protein concentrate',
  'modified food starch',
  'carrageenan',
  'methyl cellulose',
  'transglutaminase',
  'pork collagen',
  'corn syrup solids',
  'sorbitol',
  'free water',
];

export const NITRITES: readonly Substance[] = ['sodium nitrite', 'potassium nitrite'];
export const NITRATES: readonly Substance[] = ['sodium nitrate', 'potassium nitrate'];
export const CURING_AGENTS: readonly Substance[] = [...NITRITES, ...NITRATES];
export const ACCELERATORS: readonly Substance[] = [
  'ascorbic acid',
  'erythorbic acid',
  'sodium ascorbate',
  'sodium erythorbate',
  'sodium erythorbate monohydrate',
];
export const ANTIOXIDANTS: readonly Substance[] = ['BHA', 'BHT', 'propyl gallate', 'TBHQ'];

/** What a material of these kinds is there for: without a figure for it no limit could count it. */
const MUST_CARRY: Readonly<Partial<Record<MaterialKind, readonly Substance[]>>> = {
  cure: CURING_AGENTS,
  'cure accelerator': [
    ...ACCELERATORS,
    'citric acid',
    'fumaric acid',
    'glucono delta lactone',
    'sodium acid pyrophosphate',
  ],
  phosphate: ['phosphate'],
  antimicrobial: ['lactate', 'diacetate'],
  antioxidant: [...ANTIOXIDANTS, 'tocopherols'],
  preservative: ['sulfur dioxide'],
};

/** Substances that are a part of another, or another way of counting it. */
export const PART_OF: Readonly<Partial<Record<Substance, Substance>>> = {
  P2O5: 'phosphate',
  'sodium acid pyrophosphate': 'phosphate',
};

/**
 * Figures that a material needs as soon as it carries another: without its share of phosphorus pentoxide a
 * phosphate could pass a limit that counts nothing else.
 */
export const NEEDED_WITH: Readonly<Partial<Record<Substance, readonly Substance[]>>> = {
  P2O5: ['phosphate', 'sodium acid pyrophosphate'],
};

/** What is missing from a material whose kind is restricted, in words; undefined when nothing is. */
export function missingSubstance(material: Pick<Material, 'kind' | 'substances'>): string | undefined {
  const wanted = MUST_CARRY[material.kind];
  if (!wanted || carries(material, wanted)) return undefined;
  return `a ${material.kind} must say how much it carries of ${wanted.join(' or ')}`;
}
