import { carriedFraction, carries } from '../../batch/carries.ts';
import type { Material } from '../../batch/material.ts';
import { compare, type Exact, exact, multiply, subtract, sum } from '../../exact.ts';
import { type Limit, shownBound } from '../../rules/limit.ts';
import { cite } from '../markets/market.ts';
import { putIn } from '../put-in.ts';
import { isEdible } from './casing.ts';
import {
  baseName,
  type Duty,
  frozenMeat,
  isFormed,
  isSoldChilledRaw,
  listed,
  looksLikeCut,
  type Named,
  type NameOfMarket,
  speciesOf,
} from './named.ts';

/** Added water above this share of the finished product stands in the name of what looks like a cut. */
const ADDED_WATER = exact('0.05');

/** The name in the European Union and Great Britain, Regulation (EU) No 1169/2011, Annex VI. */
export function europeanName(named: Named): NameOfMarket {
  const { jurisdiction } = named.product.standard;
  const retained = jurisdiction === 'gb' ? 'retained ' : '';
  const act = `${retained}Regulation (EU) No 1169/2011, Annex VI`;
  const additions = [...(isWaterNamed(named) ? ['water'] : []), ...addedProteins(named)];
  const base = baseName(named);
  return {
    name: additions.length > 0 ? `${base} with added ${listed(additions)}` : base,
    qualifiers: [
      ...(jurisdiction === 'gb' ? reservedDescription(named) : []),
      ...mincedStatements(named, act),
      ...nationalMark(named, act),
      ...formed(named, act),
      ...defrosted(named, act),
      ...casingLine(named, act),
    ],
    cautions: [],
  };
}

function isWaterNamed(named: Named): boolean {
  if (!looksLikeCut(named.product.name)) return false;
  const finished = exact(named.batch.finishedKg);
  return compare(waterLeft(named.batch), multiply(ADDED_WATER, finished)) > 0;
}

/** Added water that is left: what the finished product weighs beyond everything else that went in. */
function waterLeft({ lines, finishedKg }: Named['batch']): Exact {
  const others = putIn(lines).filter(({ material }) => material.kind !== 'water');
  return subtract(exact(finishedKg), sum(others.map(({ massKg }) => massKg)));
}

/** Proteins of an animal other than that of the meat; what hides in a mix is told by the substances that it carries. */
function addedProteins(named: Named): string[] {
  const species = speciesOf(named);
  const materials = putIn(named.batch.lines)
    .map(({ material }) => material)
    .filter(({ kind }) => kind !== 'casing');
  const isOther = (of: Material['species']) => !(of !== undefined && species.size === 1 && species.has(of));
  const names = materials.flatMap((material) => [
    ...(carries(material, ['sodium caseinate']) ? ['milk protein'] : []),
    ...(carries(material, ['pork collagen']) && isOther('pork') ? ['pork protein'] : []),
    ...(carriedFraction(material, ['gelatin']) > 0 && isOther(material.species)
      ? [material.species ? `${material.species} gelatine` : 'gelatine']
      : []),
  ]);
  return [...new Set(names)];
}

/** Words that a reserved description is known by, by the class of product; the standard asks for its least meat. */
const RESERVED: readonly { readonly classes: RegExp; readonly word: RegExp; readonly description: string }[] =
  [
    {
      classes: /^(breakfast-)?pork-sausage$/,
      word: /pork.*(sausage|link|chipolata)/i,
      description: 'Pork sausage',
    },
    { classes: /sausage/, word: /sausage|link|chipolata/i, description: 'Sausage' },
    { classes: /economy-burger/, word: /economy.*burger/i, description: 'Economy burger' },
    { classes: /^hamburger$/, word: /hamburger/i, description: 'Hamburger' },
    { classes: /burger/, word: /burger/i, description: 'Burger' },
    { classes: /luncheon-meat/, word: /luncheon/i, description: 'Luncheon meat' },
    { classes: /^chopped-pork$/, word: /chopped/i, description: 'Chopped pork' },
  ];

/** The reserved description, where the plant's own name leaves it out. */
function reservedDescription({ product, standard }: Named): Duty[] {
  if (!/Schedule 1$/.test(standard.citation)) return [];
  const found = RESERVED.find(({ classes }) => classes.test(standard.productClass));
  if (!found || found.word.test(product.name)) return [];
  return [{ text: found.description, citation: standard.citation }];
}

/** Minced meat states what its fat and its collagen are under, by the limits of its designation. */
function mincedStatements({ standard }: Named, act: string): Duty[] {
  const limit = (what: string) =>
    standard.limits.find(({ id }) => id.endsWith(`${standard.productClass}-${what}`));
  const line = (words: string, found: Limit | undefined): Duty[] =>
    found && /1169/.test(found.id)
      ? [
          {
            text: `${words} under ${shownBound(found)} %`,
            citation: cite({ citation: `${act} part B 2`, read: 'secondary' }),
          },
        ]
      : [];
  return [
    ...line('Percentage of fat content', limit('fat')),
    ...line('Collagen/meat protein ratio', limit('collagen')),
  ];
}

/** Minced meat beyond the table is for the national market alone. */
function nationalMark({ standard }: Named, act: string): Duty[] {
  if (!standard.productClass.includes('national-mark')) return [];
  return [
    { text: 'For UK market only', citation: cite({ citation: `${act} part B 3`, read: 'from memory' }) },
  ];
}

function formed(named: Named, act: string): Duty[] {
  if (!isFormed(named)) return [];
  return [{ text: 'Formed meat', citation: cite({ citation: `${act} part A 7`, read: 'from memory' }) }];
}

function defrosted(named: Named, act: string): Duty[] {
  if (!isSoldChilledRaw(named) || frozenMeat(named) !== 'all') return [];
  return [{ text: 'Defrosted', citation: cite({ citation: `${act} part A 2`, read: 'secondary' }) }];
}

/** A casing that is not eaten is said to be so. */
function casingLine({ casing }: Named, act: string): Duty[] {
  if (!casing || isEdible(casing)) return [];
  return [{ text: 'Casing not edible', citation: cite({ citation: `${act} part C`, read: 'from memory' }) }];
}
