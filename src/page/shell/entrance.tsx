import { useState } from 'preact/hooks';
import { Button } from '../parts/button.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { TextField } from '../parts/field.tsx';
import { Notice, ProblemNotice } from '../parts/notice.tsx';
import { useSending } from '../service/sending.ts';
import { useWords } from '../words/words.ts';
import type { SessionAnswer } from './plant.ts';
import { SHELL } from './shell-words.ts';

/** Where people log in: a page of its own, or a window over what they were doing when their session ended. */
export function Entrance({
  onEnter,
  isAgain = false,
}: {
  readonly session: SessionAnswer;
  readonly onEnter: () => void;
  readonly isAgain?: boolean;
}) {
  const t = useWords(SHELL);
  if (isAgain) {
    return (
      <Dialog title={t.logIn} onClose={() => undefined}>
        <Notice kind="caution">{t.loginAgain}</Notice>
        <LoginForm onEnter={onEnter} />
      </Dialog>
    );
  }
  return (
    <main class="entrance">
      <h1>meatblock</h1>
      <LoginForm onEnter={onEnter} />
    </main>
  );
}

function LoginForm({ onEnter }: { readonly onEnter: () => void }) {
  const t = useWords(SHELL);
  const [name, setName] = useState('');
  const [password, setPassword] = useState('');
  const { send, isSending, error } = useSending('login');
  const submit = async (event: Event) => {
    event.preventDefault();
    if (await send({ path: '/session', body: { name, password } })) onEnter();
  };
  return (
    <form onSubmit={submit} class="form">
      <ProblemNotice error={error} />
      <TextField label={t.name} value={name} onValue={setName} autocomplete="username" required />
      <TextField
        label={t.password}
        type="password"
        value={password}
        onValue={setPassword}
        autocomplete="current-password"
        required
      />
      <Button kind="main" type="submit" isBusy={isSending}>
        {t.logIn}
      </Button>
    </form>
  );
}
