import { useShow } from '../figures/show.ts';
import { Notice } from '../parts/notice.tsx';
import { to } from '../shell/place.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import type { Batch } from './batch.ts';
import { Part } from './part.tsx';
import { BATCHES } from './words.ts';

/** What came out of the batch and where it is now. */
export function CameOut({
  batch,
  finished,
}: {
  readonly batch: Batch;
  readonly finished: NonNullable<Batch['finished']>;
}) {
  const t = useWords(BATCHES);
  const show = useShow();
  const say = useSay();
  const { output, rework, discarded, loss, yieldFraction, costPerKg, hold, temperatures } = finished;
  const lot = (id: string) => <a href={to('stock', id)}>{id}</a>;
  return (
    <Part title={t.cameOut}>
      {hold !== undefined && (
        <Notice kind="bad">
          <strong>{t.onHold}</strong>: {say(hold)}
        </Notice>
      )}
      <dl class="batch-facts">
        <dt>{t.product}</dt>
        <dd>
          <strong>{show.mass(output.mass.kg)}</strong> {lot(output.lotId)} {show.price(costPerKg)}
        </dd>
        <dt>{t.yield}</dt>
        <dd>{show.percent(yieldFraction)}</dd>
        {rework.map(({ lotId, mass }) => [
          <dt key={lotId}>{t.rework}</dt>,
          <dd key={`${lotId} is`}>
            {show.mass(mass.kg)} {lot(lotId)}
          </dd>,
        ])}
        {discarded.map(({ mass, reason }, index) => [
          <dt key={index}>{t.discarded}</dt>,
          <dd key={`${index} is`}>
            {show.mass(mass.kg)} <span class="aside">{reason}</span>
          </dd>,
        ])}
        <dt>{t.loss}</dt>
        <dd>{show.mass(loss.kg)}</dd>
        {temperatures.map(({ what, value, unit, time }, index) => [
          <dt key={index}>{what}</dt>,
          <dd key={`${index} is`}>
            {show.digits(String(value))} °{unit} {time}
          </dd>,
        ])}
        {batch.packs.map(({ lotId, count, net }) => [
          <dt key={lotId}>{t.packs}</dt>,
          <dd key={`${lotId} is`}>
            {t.packsOf(count, `${show.digits(net.value)} ${net.unit}`)} {lot(lotId)}
          </dd>,
        ])}
      </dl>
    </Part>
  );
}
