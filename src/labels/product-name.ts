import { ANTIOXIDANTS, CURING_AGENTS, carries } from '../batch/carries.ts';
import { isMeat, type Material } from '../batch/material.ts';
import type { Product } from '../batch/product.ts';
import type { Standard } from '../rules/standard.ts';
import { type LabelLine, putIn } from './put-in.ts';

export interface ProductName {
  readonly name: string;
  /** Lines that must stand with the name, each with its citation. */
  readonly qualifiers: readonly Duty[];
}

export interface Duty {
  readonly text: string;
  readonly citation: string;
}

/** The name by the standard, with the qualifiers that what went in calls for. */
export function productName(
  product: Product,
  standard: Standard,
  lines: readonly LabelLine[],
  casing?: Material,
): ProductName {
  return {
    name: [
      isUncured(standard, lines) ? 'Uncured' : '',
      smoked(product, standard),
      species(standard, lines),
      baseName(product, standard),
    ]
      .filter(Boolean)
      .join(' '),
    qualifiers: [
      ...(isUncured(standard, lines) ? [NO_NITRITE] : []),
      ...binderLines(product, lines),
      ...smokeFlavorLine(lines),
      ...antioxidantLine(lines),
      ...casingLine(casing),
    ],
  };
}

/** How such a product is named was read in a text that quotes the rule. */
const NO_NITRITE: Duty = {
  text: 'No Nitrate or Nitrite Added',
  citation: '9 CFR 317.17 and 319.2, secondary',
};

function isUncured({ naming }: Standard, lines: readonly LabelLine[]): boolean {
  return naming.impliesCure === true && !lines.some(({ supply }) => carries(supply.material, CURING_AGENTS));
}

/** A casing of another species than the meat, or of unknown collagen, is declared; the label maker knows which. */
function casingLine(casing: Material | undefined): Duty[] {
  if (!casing) return [];
  return [
    {
      text: `In ${casing.declaredName} (not needed where the casing is of the same species as the meat)`,
      citation: '9 CFR 317.8(b)(37), (38), secondary',
    },
  ];
}

function baseName(product: Product, { naming }: Standard): string {
  const name = naming.name ?? product.name;
  if (product.form.shape !== 'patty' || /patt|burgers|steak/i.test(name)) return name;
  return `${name} Patties`;
}

function smoked(product: Product, standard: Standard): string {
  const name = standard.naming.name ?? product.name;
  return product.process.smoked && !/smoked/i.test(name) ? 'Smoked' : '';
}

function species({ naming }: Standard, lines: readonly LabelLine[]): string {
  if (naming.species !== 'lead') return '';
  const meat = putIn(lines).filter(({ material }) => isMeat(material));
  const all = new Set(meat.map(({ material }) => material.species));
  const [only] = all;
  return all.size === 1 && only ? only.charAt(0).toUpperCase() + only.slice(1) : '';
}

/** Sausage in casing or link form is marked with each added binder (9 CFR 316.11(b), edition of 2012). */
function binderLines({ form }: Product, lines: readonly LabelLine[]): Duty[] {
  if (form.shape !== 'link') return [];
  const binders = putIn(lines).filter(({ material }) => isBinder(material));
  const names = new Set(binders.map(({ material }) => material.declaredName));
  if (names.size === 0) return [];
  const text = [...names].join(' and ');
  return [{ text: `${text.charAt(0).toUpperCase()}${text.slice(1)} added`, citation: '9 CFR 316.11(b)' }];
}

function isBinder(material: Material): boolean {
  return material.kind === 'binder' || carries(material, ['isolated soy protein', 'sodium caseinate']);
}

function smokeFlavorLine(lines: readonly LabelLine[]): Duty[] {
  const used = lines.some(({ supply }) => (supply.material.substances['smoke flavor'] ?? 0) > 0);
  return used ? [{ text: 'Smoke flavoring added', citation: '9 CFR 317.2(j)(3)' }] : [];
}

function antioxidantLine(lines: readonly LabelLine[]): Duty[] {
  const antioxidants = putIn(lines).filter(({ material }) => carries(material, ANTIOXIDANTS));
  const names = new Set(antioxidants.map(({ material }) => material.declaredName));
  if (names.size === 0) return [];
  return [{ text: `${[...names].join(', ')} added to help protect flavor`, citation: '9 CFR 317.2(j)(10)' }];
}
