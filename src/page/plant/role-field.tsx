import { Choice } from '../parts/choice.tsx';
import { useWords } from '../words/words.ts';
import { PEOPLE } from './people-words.ts';
import type { Role } from './plant-types.ts';

const ROLES: readonly Role[] = ['floor', 'formulator', 'inspector', 'admin'];

/** A role, with what it may do. */
export function RoleField({
  role,
  onRole,
  error,
}: {
  readonly role: Role;
  readonly onRole: (role: Role) => void;
  readonly error?: string | undefined;
}) {
  const t = useWords(PEOPLE);
  return (
    <Choice
      label={t.role}
      hint={t.rolesSay[role]}
      value={role}
      onValue={(value) => onRole(value as Role)}
      options={ROLES.map((value) => ({ value, says: t.roles[value] }))}
      {...(error !== undefined && { error })}
    />
  );
}
