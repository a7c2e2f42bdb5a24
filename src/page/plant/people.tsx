import { useState } from 'preact/hooks';
import { Button } from '../parts/button.tsx';
import { Confirm } from '../parts/dialog.tsx';
import { Notice, ProblemNotice } from '../parts/notice.tsx';
import { Read } from '../parts/states.tsx';
import { useTell } from '../parts/told.tsx';
import { useAnswer } from '../service/answers.ts';
import { useSending } from '../service/sending.ts';
import { useHere, useMay } from '../shell/plant.ts';
import { useWords } from '../words/words.ts';
import { Keys } from './keys.tsx';
import { OwnPassword } from './own-password.tsx';
import { PEOPLE } from './people-words.ts';
import { AddPerson, ChangePerson, NewPassword } from './person-dialogs.tsx';
import type { People, Person } from './plant-types.ts';

/** Who may come in, what each may do, and the keys of programs. */
export function PeopleAndKeys() {
  const mayManage = useMay()('manage');
  const { session } = useHere();
  return (
    <div class="stack">
      {mayManage && <Everyone />}
      {session.caller?.via === 'session' && <OwnPassword />}
      {mayManage && <Keys />}
    </div>
  );
}

type Doing = 'change' | 'password' | 'out';

function Everyone() {
  const t = useWords(PEOPLE);
  const people = useAnswer<People>('/people');
  const [isAdding, setAdding] = useState(false);
  const [doing, setDoing] = useState<{ readonly what: Doing; readonly id: string }>();
  const close = () => setDoing(undefined);
  return (
    <section class="card stack">
      <h2>{t.people}</h2>
      <Read of={people}>
        {({ items }) => {
          const person = items.find(({ id }) => id === doing?.id);
          return (
            <>
              {items.length === 0 && <Notice kind="note">{t.nobody}</Notice>}
              <ul class="plant-people">
                {items.map((each) => (
                  <PersonRow key={each.id} person={each} onDo={(what) => setDoing({ what, id: each.id })} />
                ))}
              </ul>
              <div>
                <Button kind="main" onClick={() => setAdding(true)}>
                  {items.length === 0 ? t.addFirst : t.add}
                </Button>
              </div>
              {isAdding && <AddPerson isFirst={items.length === 0} onClose={() => setAdding(false)} />}
              {person && doing?.what === 'change' && (
                <ChangePerson key={person.version} person={person} onClose={close} />
              )}
              {person && doing?.what === 'password' && <NewPassword person={person} onClose={close} />}
              {person && doing?.what === 'out' && <LetOut person={person} onClose={close} />}
            </>
          );
        }}
      </Read>
    </section>
  );
}

function PersonRow({ person, onDo }: { readonly person: Person; readonly onDo: (what: Doing) => void }) {
  const t = useWords(PEOPLE);
  const { session } = useHere();
  const { id, name, role, active, version } = person;
  const { send, isSending, error } = useSending(`let in ${id}`);
  return (
    <li>
      <div class="who">
        <strong>{name}</strong>
        {session.caller?.id === id && <span class="aside"> ({t.you})</span>}
        <p>
          {t.roles[role]} <span class="hint">{t.rolesSay[role]}</span>
        </p>
        {!active && <p class="plant-out">✕ {t.mayNot}</p>}
        <ProblemNotice error={error} />
      </div>
      <div class="row wrap">
        <Button label={t.change(name)} onClick={() => onDo('change')}>
          {t.changeShort}
        </Button>
        <Button label={t.newPasswordFor(name)} onClick={() => onDo('password')}>
          {t.newPassword}
        </Button>
        {active ? (
          <Button kind="grave" label={`${t.letOut}: ${name}`} onClick={() => onDo('out')}>
            {t.letOut}
          </Button>
        ) : (
          <Button
            label={`${t.letIn}: ${name}`}
            isBusy={isSending}
            onClick={() =>
              void send({ method: 'PATCH', path: `/people/${id}`, body: { active: true }, version })
            }
          >
            {t.letIn}
          </Button>
        )}
      </div>
    </li>
  );
}

function LetOut({ person, onClose }: { readonly person: Person; readonly onClose: () => void }) {
  const t = useWords(PEOPLE);
  const tell = useTell();
  const { id, name, version } = person;
  const { send, isSending, error } = useSending(`let out ${id}`);
  const yes = async () => {
    if (!(await send({ method: 'PATCH', path: `/people/${id}`, body: { active: false }, version }))) return;
    tell({ says: t.out(name) });
    onClose();
  };
  return (
    <Confirm
      title={t.letOutTitle(name)}
      says={t.letOutSays}
      does={t.letOut}
      isBusy={isSending}
      onYes={() => void yes()}
      onClose={onClose}
    >
      <ProblemNotice error={error} />
    </Confirm>
  );
}
