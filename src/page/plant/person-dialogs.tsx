import { useState } from 'preact/hooks';
import { Button } from '../parts/button.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { TextField } from '../parts/field.tsx';
import { ProblemNotice, useFieldFault } from '../parts/notice.tsx';
import { useTell } from '../parts/told.tsx';
import { Refused, Unreached } from '../service/ask.ts';
import { useSending } from '../service/sending.ts';
import { Password } from '../shell/entrance.tsx';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { addFirstAdmin } from './first-admin.ts';
import { PEOPLE } from './people-words.ts';
import type { Person, Role } from './plant-types.ts';
import { RoleField } from './role-field.tsx';

const FIELDS = ['/name', '/role', '/password'];

export function AddPerson({ isFirst, onClose }: { readonly isFirst: boolean; readonly onClose: () => void }) {
  const t = useWords(PEOPLE);
  const tell = useTell();
  const [typed, setTyped] = useState({
    name: '',
    role: (isFirst ? 'admin' : 'floor') as Role,
    password: '',
  });
  const set = (change: Partial<typeof typed>) => setTyped((before) => ({ ...before, ...change }));
  const { send, isSending, error } = useSending('person added');
  const first = useFirstAdmin();
  const submit = async (event: Event) => {
    event.preventDefault();
    const isDone = isFirst
      ? await first.add(typed.name, typed.password)
      : await send({ path: '/people', body: typed, isSecret: true });
    if (!isDone) return;
    tell({ says: t.added(typed.name) });
    onClose();
  };
  const failed = first.error ?? error;
  const fault = useFieldFault(failed);
  return (
    <Dialog title={isFirst ? t.addFirst : t.add} onClose={onClose}>
      <form class="form" onSubmit={submit}>
        <ProblemNotice error={failed} shownPointers={FIELDS} />
        <TextField
          label={t.name}
          hint={t.nameSays}
          value={typed.name}
          onValue={(name) => set({ name })}
          error={fault('/name')}
          required
        />
        {!isFirst && <RoleField role={typed.role} onRole={(role) => set({ role })} error={fault('/role')} />}
        <Password
          isNew
          hint={t.passwordSays}
          value={typed.password}
          onValue={(password) => set({ password })}
          error={fault('/password')}
        />
        <Foot does={isFirst ? t.addFirst : t.add} isBusy={isSending || first.isBusy} onClose={onClose} />
      </form>
    </Dialog>
  );
}

function useFirstAdmin() {
  const [error, setError] = useState<Refused | Unreached>();
  const [isBusy, setBusy] = useState(false);
  const add = async (name: string, password: string): Promise<boolean> => {
    setBusy(true);
    setError(undefined);
    try {
      await addFirstAdmin(name, password);
      return true;
    } catch (caught) {
      if (!(caught instanceof Refused || caught instanceof Unreached)) throw caught;
      setError(caught);
      return false;
    } finally {
      setBusy(false);
    }
  };
  return { add, isBusy, ...(error && { error }) };
}

export function ChangePerson({ person, onClose }: { readonly person: Person; readonly onClose: () => void }) {
  const t = useWords(PEOPLE);
  const common = useWords(COMMON);
  const tell = useTell();
  const [typed, setTyped] = useState({ name: person.name, role: person.role });
  const { send, isSending, error } = useSending(`person ${person.id}`);
  const fault = useFieldFault(error);
  const submit = async (event: Event) => {
    event.preventDefault();
    const { id, version } = person;
    if (!(await send({ method: 'PATCH', path: `/people/${id}`, body: typed, version }))) return;
    tell({ says: t.changed(typed.name) });
    onClose();
  };
  return (
    <Dialog title={t.change(person.name)} onClose={onClose}>
      <form class="form" onSubmit={submit}>
        <ProblemNotice error={error} shownPointers={FIELDS} />
        <TextField
          label={t.name}
          value={typed.name}
          onValue={(name) => setTyped({ ...typed, name })}
          error={fault('/name')}
          required
        />
        <RoleField role={typed.role} onRole={(role) => setTyped({ ...typed, role })} error={fault('/role')} />
        <Foot does={common.save} isBusy={isSending} onClose={onClose} />
      </form>
    </Dialog>
  );
}

export function NewPassword({ person, onClose }: { readonly person: Person; readonly onClose: () => void }) {
  const t = useWords(PEOPLE);
  const tell = useTell();
  const [password, setPassword] = useState('');
  const { send, isSending, error } = useSending(`password of ${person.id}`);
  const fault = useFieldFault(error);
  const submit = async (event: Event) => {
    event.preventDefault();
    const { id, version } = person;
    const act = {
      method: 'PATCH',
      path: `/people/${id}`,
      body: { password },
      version,
      isSecret: true,
    } as const;
    if (!(await send(act))) return;
    tell({ says: t.givenPassword(person.name) });
    onClose();
  };
  return (
    <Dialog title={t.newPasswordFor(person.name)} onClose={onClose}>
      <form class="form" onSubmit={submit}>
        <p>{t.newPasswordSays}</p>
        <ProblemNotice error={error} shownPointers={FIELDS} />
        <Password
          isNew
          hint={t.passwordSays}
          value={password}
          onValue={setPassword}
          error={fault('/password')}
        />
        <Foot does={t.newPassword} isBusy={isSending} onClose={onClose} />
      </form>
    </Dialog>
  );
}

export function Foot({
  does,
  isBusy,
  onClose,
}: {
  readonly does: string;
  readonly isBusy: boolean;
  readonly onClose: () => void;
}) {
  const common = useWords(COMMON);
  return (
    <div class="actions">
      <Button onClick={onClose}>{common.cancel}</Button>
      <Button kind="main" type="submit" isBusy={isBusy}>
        {does}
      </Button>
    </div>
  );
}
