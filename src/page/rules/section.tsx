import './rules.css';
import { useState } from 'preact/hooks';
import type { ProductInput } from '../../api/contract/line-limits.ts';
import type { RuleSetsAnswer, RulesAnswer } from '../../api/contract/resources.ts';
import { useShow } from '../figures/show.ts';
import { Go } from '../parts/button.tsx';
import { Choice } from '../parts/choice.tsx';
import { DayField, TextField } from '../parts/field.tsx';
import { Notice } from '../parts/notice.tsx';
import { Read } from '../parts/states.tsx';
import { useAnswer } from '../service/answers.ts';
import { queryOf } from '../service/ask.ts';
import { go, to } from '../shell/place.ts';
import { useHere } from '../shell/plant.ts';
import type { SectionProps } from '../shell/section.ts';
import { Said } from '../words/said.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { ClassView } from './class-view.tsx';
import { MarketView } from './market-view.tsx';
import { RULES } from './words.ts';

/** The rules that blends are held to, of any market, on any day: '#/rules/us/hamburger?day=2026-01-01'. */
export default function Section({ place }: SectionProps) {
  const t = useWords(RULES);
  const say = useSay();
  const { day: shownDay } = useShow();
  const { plant } = useHere();
  const [jurisdiction = plant.jurisdiction, productClass] = place.parts;
  const day = place.query.get('day') ?? plant.today;
  const [typed, setTyped] = useState('');
  const ruleSets = useAnswer<RuleSetsAnswer>('/rule-sets');
  const rules = useAnswer<RulesAnswer>(`/rules${queryOf({ jurisdiction, productClass, date: day })}`);
  const products = useAnswer<{ items: readonly ProductInput[] }>('/products?limit=500');
  const addressOf = (market: string, wanted: string | undefined, on = day) =>
    `${to('rules', market, ...(wanted ? [wanted] : []))}${on === plant.today ? '' : `?day=${on}`}`;
  const set = ruleSets.body?.items.find((each) => each.jurisdiction === jurisdiction);
  const named = set?.classes.find((each) => each.productClass === productClass);
  return (
    <div class="rules stack">
      <div>
        <h1>{productClass === undefined ? t.title : say(named?.says ?? productClass)}</h1>
        <p class="hint">{t.says}</p>
      </div>
      <div class="rules-where">
        <Choice
          label={t.market}
          value={jurisdiction}
          onValue={(market) => go(addressOf(market, undefined))}
          options={(ruleSets.body?.items ?? []).map((each) => ({
            value: each.jurisdiction,
            says: say(each.says),
          }))}
        />
        <DayField
          label={t.day}
          value={day}
          onValue={(on) => on && go(addressOf(jurisdiction, productClass, on))}
        />
        {productClass === undefined ? (
          <TextField label={t.search} hint={t.searchHint} type="search" value={typed} onValue={setTyped} />
        ) : (
          <div class="rules-back">
            <Go href={addressOf(jurisdiction, undefined)}>{t.allClasses}</Go>
          </div>
        )}
      </div>
      {jurisdiction !== plant.jurisdiction && <Notice kind="caution">{t.otherMarket}</Notice>}
      <Notice kind="note">
        {t.caution}{' '}
        {set && (
          <>
            {t.textRead} <Said text={set.edition} />; {t.knownFrom(shownDay(set.knownFrom))}.
          </>
        )}
      </Notice>
      <Read of={rules}>
        {(body) => {
          const [standard] = body.standards;
          if (productClass !== undefined && standard) {
            return (
              <ClassView
                standard={standard}
                jurisdiction={jurisdiction}
                products={products.body?.items ?? []}
              />
            );
          }
          return (
            <MarketView rules={body} typed={typed} addressOf={(wanted) => addressOf(jurisdiction, wanted)} />
          );
        }}
      </Read>
      <div class="row wrap">
        <Go kind="quiet" target="_blank" href={`/rules${queryOf({ jurisdiction, productClass, date: day })}`}>
          {t.plain}
        </Go>
        <Go kind="quiet" href="#/products/house">
          {t.houseRules}
        </Go>
      </div>
    </div>
  );
}
