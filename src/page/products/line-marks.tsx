import type { MaterialAnswer } from '../../api/contract/resources.ts';
import { parseNumber, withMark } from '../figures/number.ts';
import { Button } from '../parts/button.tsx';
import { Notice } from '../parts/notice.tsx';
import { useLimitFigures } from '../rules/limit-figure.ts';
import { LIMIT_WORDS } from '../rules/limit-words.ts';
import { useDevice } from '../shell/device.ts';
import { Said } from '../words/said.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import type { LineDraft } from './draft.ts';
import { fractionOf, mostDigits } from './rates.ts';
import { type LineLimit, tightest, verdictOf } from './standing.ts';
import { TRIAL } from './trial-words.ts';
import { PRODUCTS } from './words.ts';

/** What the limits leave of one line, right at the line, and what to be careful with. */
export function LineMarks({
  line,
  material,
  limits,
  onChange,
}: {
  readonly line: LineDraft;
  readonly material: MaterialAnswer | undefined;
  readonly limits: readonly LineLimit[];
  readonly onChange: (of: Partial<LineDraft>) => void;
}) {
  const t = useWords(TRIAL);
  const say = useSay();
  return (
    <div class="products-marks">
      {tightest(limits).map((limit) => (
        <Mark key={limit.limit.id} line={line} found={limit} onChange={onChange} />
      ))}
      {material?.kind === 'cure' && <Notice kind="caution">{t.cure}</Notice>}
      {material && material.allergens.length > 0 && (
        <p class="products-quiet">⚠ {t.allergen(material.allergens.map(say).join(', '))}</p>
      )}
    </div>
  );
}

function Mark({
  line,
  found,
  onChange,
}: {
  readonly line: LineDraft;
  readonly found: LineLimit;
  readonly onChange: (of: Partial<LineDraft>) => void;
}) {
  const t = useWords(PRODUCTS);
  const w = useWords(TRIAL);
  const l = useWords(LIMIT_WORDS);
  const say = useSay();
  const { mark } = useDevice();
  const figures = useLimitFigures();
  const { limit, value, atMostFraction } = found;
  const typed = line.isRange ? line.max : line.rate;
  const least = parseNumber(line.isRange ? line.min : line.rate, mark);
  const verdict = verdictOf(found, least.kind === 'number' ? fractionOf(least.text, line.unit) : 0);
  const authority = limit.authority === 'law' ? l.law : l.house;
  const source = (
    <span class="aside">
      · <Said text={limit.citation} />
    </span>
  );
  if (verdict === 'forbidden') {
    return (
      <Notice kind="bad">
        {w.forbidden} {say(limit.says)} {source}
      </Notice>
    );
  }
  const most = (unit: LineDraft['unit']) => withMark(mostDigits(atMostFraction, unit), mark);
  const inBoth = `${most('%')} % = ${most('oz/100 lb')} oz/100 lb`;
  if (verdict === 'holds') {
    if (limit.bound === 0) return null;
    return (
      <p class="products-quiet">
        {authority}: {l.atMost(inBoth)} {source}
      </p>
    );
  }
  if (verdict === 'reaches') {
    return (
      <p class="products-quiet">
        ! {authority}: {l.atMost(inBoth)}. {w.reaches} {source}
      </p>
    );
  }
  return (
    <Notice kind="bad">
      <p>
        {w.is(`${typed} ${line.unit}`, t.bases[line.basis])}:{' '}
        {w.brings(figures.value(value, limit.unit), say(limit.numerator))};{' '}
        {limit.authority === 'law' ? w.lawAllows : w.houseAllows} {figures.exactly(limit.bound, limit.unit)},{' '}
        {w.here} <strong>{inBoth}</strong>. {source}
      </p>
      {!line.isRange && (
        <Button onClick={() => onChange({ rate: most(line.unit) })}>
          {w.lower(`${most(line.unit)} ${line.unit}`)}
        </Button>
      )}
    </Notice>
  );
}
