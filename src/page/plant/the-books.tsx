import type { z } from 'zod';
import type { entriesAnswer } from '../../api/access/contract.ts';
import type { healthAnswer } from '../../api/contract/resources.ts';
import { useShow } from '../figures/show.ts';
import { Go } from '../parts/button.tsx';
import { Facts } from '../parts/facts.tsx';
import { useAnswer } from '../service/answers.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { BOOKS } from './books-words.ts';
import { Copied } from './copied.tsx';

type Health = z.output<typeof healthAnswer>;
type Entries = z.output<typeof entriesAnswer>;

const HEALTH_MS = 15_000;

/** How the service stands, and how nothing of the books is lost. */
export function TheBooks() {
  const t = useWords(BOOKS);
  const say = useSay();
  const show = useShow();
  const health = useAnswer<Health>('/health', { everyMs: HEALTH_MS });
  const last = useAnswer<Entries>('/entries?limit=1').body?.items[0];
  return (
    <div class="plant-books">
      <section class="card stack">
        <h2>{t.service}</h2>
        <p class={health.error ? 'plant-out' : 'plant-works'} role="status">
          {health.error ? `✕ ${t.silent}` : `✓ ${t.answers}`}
        </p>
        <Facts
          look="plant-example"
          facts={[
            [t.version, health.body?.version ?? '–'],
            [t.written, last?.seq],
            [
              t.last,
              last && (
                <>
                  {say(last.says)} <span class="hint">{show.instant(last.at)}</span>
                </>
              ),
            ],
          ]}
        />
        <div class="row wrap">
          <Go href="/docs">{t.api}</Go>
          <Go href="/v1/openapi.json">{t.contract}</Go>
        </div>
      </section>
      <section class="card stack">
        <h2>{t.take}</h2>
        <p>{t.takeSays}</p>
        <div>
          <Go href="#/stock/sheets">{t.toSheets}</Go>
        </div>
      </section>
      <section class="card stack plant-wide">
        <h2>{t.copies}</h2>
        <p>{t.copiesSay}</p>
        <Command says={t.make} command="npm run meatblock -- backup /media/disk/plant.gz" />
        <Command says={t.verify} command="npm run meatblock -- verify" hint={t.verifySays} />
        <Command
          says={t.restore}
          command="npm run meatblock -- restore /media/disk/plant.gz --store new.sqlite"
          hint={t.try}
        />
      </section>
    </div>
  );
}

function Command({
  says,
  command,
  hint,
}: {
  readonly says: string;
  readonly command: string;
  readonly hint?: string;
}) {
  const t = useWords(BOOKS);
  return (
    <div class="plant-command">
      <h3>{says}</h3>
      <Copied label={`${t.command}: ${says}`} text={command} />
      {hint && <p class="hint">{hint}</p>}
    </div>
  );
}
