import { fatPercentOf, fixed } from '../../units.ts';
import { cite } from '../markets/market.ts';
import { baseName, type Duty, type Named, type NameOfMarket } from './named.ts';

const STANDARD = 'Food Standards Code, Standard 2.2.1';

/** The common name; mince that is called lean declares its most fat, fermented meat how it was heated. */
export function australasianName(named: Named): NameOfMarket {
  const { product } = named;
  const speaksOfFat = /lean|premium|low fat|trim\b|heart smart/i.test(product.name);
  const isSilent = isMince(named) && speaksOfFat && product.label.leanPercent === undefined;
  return {
    name: baseName(named),
    qualifiers: [...mostFat(named), ...heated(named)],
    cautions: isSilent
      ? [
          `The name speaks of the fat of the mince: its most fat in g/100 g must be declared (${STANDARD}). Give the product a lean percent.`,
        ]
      : [],
  };
}

function isMince({ standard }: Named): boolean {
  return standard.productClass === 'mince';
}

function mostFat(named: Named): Duty[] {
  const { leanPercent } = named.product.label;
  if (!isMince(named) || leanPercent === undefined) return [];
  const most = fatPercentOf(leanPercent);
  return [
    {
      text: `Maximum ${Number.isInteger(most) ? most : fixed(most, 1)} g fat per 100 g`,
      citation: cite({ citation: STANDARD, read: 'secondary' }),
    },
  ];
}

function heated({ product, standard }: Named): Duty[] {
  if (standard.productClass !== 'fermented-sausage') return [];
  const text = product.process.cooking === 'cooked' ? 'Cooked' : 'Not heat treated';
  return [{ text, citation: cite({ citation: STANDARD, read: 'secondary' }) }];
}
