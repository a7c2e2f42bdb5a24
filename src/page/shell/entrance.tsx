import { useState } from 'preact/hooks';
import { Button } from '../parts/button.tsx';
import { Tick } from '../parts/choice.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { TextField } from '../parts/field.tsx';
import { Notice, ProblemNotice, useFieldFault } from '../parts/notice.tsx';
import { Refused } from '../service/ask.ts';
import { useSending } from '../service/sending.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { useDevice } from './device.ts';
import { ENTRANCE } from './entrance-words.ts';
import type { SessionAnswer } from './plant.ts';
import { SHELL } from './shell-words.ts';

/** Where people come in: with their name and password, or, before there is anyone, with the code of the terminal. */
export function Entrance({
  session,
  onEnter,
}: {
  readonly session: SessionAnswer;
  readonly onEnter: () => void;
}) {
  const t = useWords(ENTRANCE);
  const words = useWords(SHELL);
  const device = useDevice();
  const other = device.language === 'en' ? 'es' : 'en';
  const isSetUp = session.entrance === 'set-up';
  return (
    <main class="entrance">
      <header>
        <svg viewBox="0 0 64 48" aria-hidden="true">
          <path class="lean" d="M4 12h56v28a4 4 0 0 1-4 4H8a4 4 0 0 1-4-4z" />
          <path class="fat" d="M4 12h56v7c-9 6-14-3-22 2s-12-4-19 0-10 1-15-1z" />
          <path class="edge" d="M4 12 14 4h36l10 8z" />
        </svg>
        <p class="name">meatblock</p>
        <Button
          kind="quiet"
          lang={other}
          title={words.languageSays}
          onClick={() => device.set({ language: other })}
        >
          {words.language}
        </Button>
      </header>
      <section class="card">
        <h1>{isSetUp ? t.setUp : words.logIn}</h1>
        {isSetUp ? (
          <SetUpForm onEnter={onEnter} />
        ) : (
          <>
            <LoginForm onEnter={onEnter} />
            <p class="hint">{t.forgotten}</p>
          </>
        )}
      </section>
    </main>
  );
}

/** A session has ended over what somebody was doing: they log in again, and go on. */
export function LoginAgain({ name, onEnter }: { readonly name: string; readonly onEnter: () => void }) {
  const t = useWords(SHELL);
  return (
    <Dialog title={t.logIn} onClose={() => undefined}>
      <div class="stack">
        <Notice kind="caution">{t.loginAgain}</Notice>
        <LoginForm name={name} onEnter={onEnter} />
      </div>
    </Dialog>
  );
}

function LoginForm({ name: known = '', onEnter }: { readonly name?: string; readonly onEnter: () => void }) {
  const t = useWords(SHELL);
  const [name, setName] = useState(known);
  const [password, setPassword] = useState('');
  const { send, isSending, error } = useSending('login');
  const say = useSay();
  const isWrong = error instanceof Refused && error.kind === 'not-logged-in';
  const submit = async (event: Event) => {
    event.preventDefault();
    if (await send({ path: '/session', body: { name, password }, isSecret: true })) onEnter();
  };
  return (
    <form onSubmit={submit} class="form">
      {isWrong ? (
        <Notice kind="bad" isUrgent>
          {say(error.message)}
        </Notice>
      ) : (
        <ProblemNotice error={error} />
      )}
      <TextField label={t.name} value={name} onValue={setName} autocomplete="username" required />
      <Password value={password} onValue={setPassword} />
      <Button kind="main" type="submit" isBusy={isSending}>
        {t.logIn}
      </Button>
    </form>
  );
}

function SetUpForm({ onEnter }: { readonly onEnter: () => void }) {
  const t = useWords(ENTRANCE);
  const words = useWords(SHELL);
  const [typed, setTyped] = useState({ code: '', name: '', password: '' });
  const set = (change: Partial<typeof typed>) => setTyped((before) => ({ ...before, ...change }));
  const { send, isSending, error } = useSending('set-up');
  const fault = useFieldFault(error);
  const submit = async (event: Event) => {
    event.preventDefault();
    if (await send({ path: '/set-up', body: typed, isSecret: true })) onEnter();
  };
  return (
    <form onSubmit={submit} class="form">
      <p>{t.setUpSays}</p>
      <ProblemNotice error={error} shownPointers={['/code', '/name', '/password']} />
      <TextField
        label={t.code}
        hint={t.codeSays}
        error={fault('/code')}
        value={typed.code}
        onValue={(code) => set({ code })}
        required
      />
      <TextField
        label={t.yourName}
        error={fault('/name')}
        value={typed.name}
        onValue={(name) => set({ name })}
        autocomplete="username"
        required
      />
      <Password
        isNew
        label={words.password}
        hint={t.passwordSays}
        error={fault('/password')}
        value={typed.password}
        onValue={(password) => set({ password })}
      />
      <Button kind="main" type="submit" isBusy={isSending}>
        {t.makeAdmin}
      </Button>
    </form>
  );
}

/** A password, which can be looked at: gloves and small keys make slips. */
export function Password({
  label,
  hint,
  error,
  isNew = false,
  value,
  onValue,
}: {
  readonly label?: string;
  readonly hint?: string;
  readonly error?: string | undefined;
  readonly isNew?: boolean;
  readonly value: string;
  readonly onValue: (value: string) => void;
}) {
  const t = useWords(ENTRANCE);
  const words = useWords(SHELL);
  const [isShown, setShown] = useState(false);
  return (
    <div>
      <TextField
        label={label ?? words.password}
        {...(hint !== undefined && { hint })}
        error={error}
        type={isShown ? 'text' : 'password'}
        value={value}
        onValue={onValue}
        autocomplete={isNew ? 'new-password' : 'current-password'}
        required
      />
      <Tick label={t.show} isOn={isShown} onChange={setShown} />
    </div>
  );
}
