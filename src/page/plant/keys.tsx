import { useState } from 'preact/hooks';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Confirm, Dialog } from '../parts/dialog.tsx';
import { TextField } from '../parts/field.tsx';
import { Notice, ProblemNotice, useFieldFault } from '../parts/notice.tsx';
import { Read } from '../parts/states.tsx';
import { useTell } from '../parts/told.tsx';
import { useAnswer } from '../service/answers.ts';
import { useSending } from '../service/sending.ts';
import { useWords } from '../words/words.ts';
import { Copied } from './copied.tsx';
import { PEOPLE } from './people-words.ts';
import { Foot } from './person-dialogs.tsx';
import type { Key, Keys as KeysAnswer, MadeKey, Role } from './plant-types.ts';
import { RoleField } from './role-field.tsx';

/** Keys with which programs come in. */
export function Keys() {
  const t = useWords(PEOPLE);
  const show = useShow();
  const keys = useAnswer<KeysAnswer>('/keys');
  const [isMaking, setMaking] = useState(false);
  const [revoking, setRevoking] = useState<Key>();
  return (
    <section class="card stack">
      <h2>{t.keys}</h2>
      <p class="hint">{t.keysSay}</p>
      <Read of={keys}>
        {({ items }) => (
          <>
            {items.length === 0 && <p>{t.noKeys}</p>}
            <ul class="plant-people">
              {items.map((key) => (
                <li key={key.id}>
                  <div class="who">
                    <strong>{key.name}</strong> <span class="aside">{key.id}</span>
                    <p>
                      {t.roles[key.role]}{' '}
                      <span class="hint">
                        {t.madeAt}: {show.instant(key.createdAt)}
                      </span>
                    </p>
                    <p class={key.revokedAt === undefined ? 'plant-works' : 'plant-out'}>
                      {key.revokedAt === undefined
                        ? `✓ ${t.inUse}`
                        : `✕ ${t.revoked(show.instant(key.revokedAt))}`}
                    </p>
                  </div>
                  {key.revokedAt === undefined && (
                    <Button kind="grave" label={`${t.revoke}: ${key.name}`} onClick={() => setRevoking(key)}>
                      {t.revoke}
                    </Button>
                  )}
                </li>
              ))}
            </ul>
          </>
        )}
      </Read>
      <div>
        <Button onClick={() => setMaking(true)}>{t.makeKey}</Button>
      </div>
      {isMaking && <MakeKey onClose={() => setMaking(false)} />}
      {revoking && <Revoke revoked={revoking} onClose={() => setRevoking(undefined)} />}
    </section>
  );
}

function MakeKey({ onClose }: { readonly onClose: () => void }) {
  const t = useWords(PEOPLE);
  const [typed, setTyped] = useState({ name: '', role: 'floor' as Role });
  const [made, setMade] = useState<string>();
  const { send, isSending, error } = useSending('key');
  const fault = useFieldFault(error);
  const submit = async (event: Event) => {
    event.preventDefault();
    // Sent again under the same key of the request, the answer would not hold the key any more.
    const answered = await send<MadeKey>({ path: '/keys', body: typed, isSecret: true });
    if (answered) setMade(answered.body.key ?? '');
  };
  if (made !== undefined) {
    return (
      <Dialog title={typed.name} onClose={onClose}>
        <div class="stack">
          <Notice kind="caution">{t.made}</Notice>
          <Copied label={t.key} text={made} />
          <div class="actions">
            <Button kind="main" onClick={onClose}>
              {t.done}
            </Button>
          </div>
        </div>
      </Dialog>
    );
  }
  return (
    <Dialog title={t.makeKey} onClose={onClose}>
      <form class="form" onSubmit={submit}>
        <ProblemNotice error={error} shownPointers={['/name', '/role']} />
        <TextField
          label={t.keyFor}
          value={typed.name}
          onValue={(name) => setTyped({ ...typed, name })}
          error={fault('/name')}
          required
        />
        <RoleField role={typed.role} onRole={(role) => setTyped({ ...typed, role })} error={fault('/role')} />
        <Foot does={t.makeKey} isBusy={isSending} onClose={onClose} />
      </form>
    </Dialog>
  );
}

function Revoke({ revoked, onClose }: { readonly revoked: Key; readonly onClose: () => void }) {
  const t = useWords(PEOPLE);
  const tell = useTell();
  const { send, isSending, error } = useSending(`revoke ${revoked.id}`);
  const yes = async () => {
    if (!(await send({ method: 'DELETE', path: `/keys/${revoked.id}` }))) return;
    tell({ says: t.wasRevoked(revoked.name) });
    onClose();
  };
  return (
    <Confirm
      title={t.revokeTitle(revoked.name)}
      says={t.revokeSays}
      does={t.revoke}
      isBusy={isSending}
      onYes={() => void yes()}
      onClose={onClose}
    >
      <ProblemNotice error={error} />
    </Confirm>
  );
}
