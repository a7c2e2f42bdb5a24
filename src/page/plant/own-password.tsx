import { useState } from 'preact/hooks';
import { Button } from '../parts/button.tsx';
import { ProblemNotice, useFieldFault } from '../parts/notice.tsx';
import { useTell } from '../parts/told.tsx';
import { useSending } from '../service/sending.ts';
import { Password } from '../shell/entrance.tsx';
import { useWords } from '../words/words.ts';
import { PEOPLE } from './people-words.ts';

const EMPTY = { old: '', new: '' };

/** Everyone changes their own password. */
export function OwnPassword() {
  const t = useWords(PEOPLE);
  const tell = useTell();
  const [typed, setTyped] = useState(EMPTY);
  const { send, isSending, error } = useSending('own password');
  const fault = useFieldFault(error);
  const submit = async (event: Event) => {
    event.preventDefault();
    if (!(await send({ method: 'PUT', path: '/people/me/password', body: typed, isSecret: true }))) return;
    setTyped(EMPTY);
    tell({ says: t.ownChanged });
  };
  return (
    <section class="card stack">
      <h2>{t.own}</h2>
      <form class="form" onSubmit={submit}>
        <p class="hint">{t.ownSays}</p>
        <ProblemNotice error={error} shownPointers={['/old', '/new']} />
        <div class="plant-pair">
          <Password
            label={t.old}
            value={typed.old}
            onValue={(old) => setTyped({ ...typed, old })}
            error={fault('/old')}
          />
          <Password
            isNew
            label={t.fresh}
            value={typed.new}
            onValue={(fresh) => setTyped({ ...typed, new: fresh })}
            error={fault('/new')}
          />
        </div>
        <div>
          <Button type="submit" isBusy={isSending} disabled={typed.old === '' || typed.new === ''}>
            {t.changeOwn}
          </Button>
        </div>
      </form>
    </section>
  );
}
