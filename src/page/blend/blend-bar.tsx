import { useShow } from '../figures/show.ts';
import { Figure } from '../pictures/figure.tsx';
import { leanColor } from '../pictures/lean-color.ts';
import { useWords } from '../words/words.ts';
import type { Blend } from './asking.ts';
import { BLEND } from './words.ts';

type Line = Blend['lines'][number];

/** The blend as a bar: a piece for each lot as wide as its weight, coloured by its lean; seasoning and water at the end. */
export function BlendBar({ blend }: { readonly blend: Blend }) {
  const t = useWords(BLEND);
  const show = useShow();
  const meat = meatLines(blend);
  const othersKg = blend.lines
    .filter((line) => !meat.includes(line))
    .reduce((sum, { mass }) => sum + mass.kg, 0);
  const share = (kg: number) => show.percent(kg / blend.batch.kg);
  const says = [
    ...meat.map(({ supplyId, material, mass }) => `${supplyId} ${material} ${share(mass.kg)}`),
    ...(othersKg > 0 ? [`${t.others} ${share(othersKg)}`] : []),
  ].join(', ');
  return (
    <Figure
      title={t.barTitle}
      caption={t.barSays}
      columns={[
        { says: t.lot, of: ({ supplyId, material }: Line) => `${supplyId} ${material}`, isName: true },
        { says: t.whole, of: ({ mass }: Line) => show.mass(mass.kg), isNumber: true },
        { says: t.share, of: ({ mass }: Line) => share(mass.kg), isNumber: true },
        { says: t.fat, of: ({ fat }: Line) => (fat ? show.percent(fat.meanFraction) : ''), isNumber: true },
      ]}
      rows={blend.lines}
      keyOf={({ supplyId }: Line) => supplyId}
    >
      <div class="blend-bar" role="img" aria-label={says}>
        {meat.map(({ supplyId, mass, fat }) => {
          const { fill, ink } = leanColor(fat?.meanFraction ?? 0.1);
          return (
            <span
              key={supplyId}
              class="blend-piece"
              style={{ flexGrow: mass.kg, backgroundColor: fill, color: ink }}
            >
              <b>{supplyId}</b>
              <span>{show.mass(mass.kg)}</span>
              <span>{share(mass.kg)}</span>
            </span>
          );
        })}
        {othersKg > 0 && (
          <span class="blend-piece others" style={{ flexGrow: othersKg }}>
            <b>{t.others}</b>
            <span>{show.mass(othersKg)}</span>
          </span>
        )}
      </div>
    </Figure>
  );
}

/** Lines that are meat: what is known of a lot's fat is known of meat alone. */
export function meatLines({ lines }: Blend): Line[] {
  return lines.filter(({ fat }) => fat !== undefined);
}
