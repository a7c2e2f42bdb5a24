import { ratio } from '../../exact.ts';
import { Coefficients } from '../../rules/coefficients.ts';
import { FORMS } from '../../rules/forms.ts';
import { isCollagen, isEdible, isOfOtherSpecies } from './casing.ts';
import { baseName, type Duty, frozenMeat, isSoldChilledRaw, type Named, type NameOfMarket } from './named.ts';

const REGULATIONS = 'Food and Drug Regulations (C.R.C., c. 870)';

/** The common name, and for cured cuts the meat protein that they hold (B.14.021 and B.01.090). */
export function canadianName(named: Named): NameOfMarket {
  return {
    name: baseName(named),
    qualifiers: [...meatProtein(named), ...thawed(named), ...casingLine(named)],
    cautions: [],
  };
}

/** Rounded down: the figure is the least. */
function meatProtein({ product, standard, batch }: Named): Duty[] {
  if (!/cut-(un)?cooked$/.test(standard.productClass)) return [];
  const coefficients = new Coefficients(
    batch.lines.map(({ supply }) => supply),
    product.process,
  );
  const masses = batch.lines.map(({ exactMassKg }) => exactMassKg);
  const share = ratio(
    coefficients.total(FORMS.meatProtein, masses),
    coefficients.total(FORMS.finished, masses),
  );
  if (!Number.isFinite(share)) return [];
  return [
    {
      text: `Minimum ${Math.floor(share * 100)}% meat protein`,
      citation: `${REGULATIONS}, B.14.021 and B.01.090`,
    },
  ];
}

function thawed(named: Named): Duty[] {
  const frozen = frozenMeat(named);
  if (!isSoldChilledRaw(named) || frozen === 'none') return [];
  const text = frozen === 'all' ? 'Previously frozen' : 'Made from fresh and frozen portions';
  return [{ text, citation: `${REGULATIONS}, B.01.080` }];
}

/** No other casing has to be declared. */
function casingLine(named: Named): Duty[] {
  const { casing } = named;
  if (!casing || !isEdible(casing) || isCollagen(casing) || !isOfOtherSpecies(casing, named)) return [];
  return [
    {
      text: `In ${casing.declaredName}`,
      citation: `${REGULATIONS}, B.01.008(3)(b), as guidance of the inspection agency reads it, secondary`,
    },
  ];
}
