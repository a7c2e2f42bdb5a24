/** What people may do here. */
export const ROLES = ['floor', 'formulator', 'inspector', 'admin'] as const;
export type Role = (typeof ROLES)[number];

/**
 * What a request asks for: to read; to work on the floor (receive, weigh, test, pack, ship); to plan (batches, products,
 * prices, release of a hold, closing); to manage (people, keys, the plant itself). 'anyone' needs no login.
 */
export const PERMISSIONS = ['anyone', 'read', 'work', 'plan', 'manage'] as const;
export type Permission = (typeof PERMISSIONS)[number];

const GRANTED: Readonly<Record<Role, readonly Permission[]>> = {
  floor: ['anyone', 'read', 'work'],
  formulator: ['anyone', 'read', 'work', 'plan'],
  inspector: ['anyone', 'read'],
  admin: ['anyone', 'read', 'work', 'plan', 'manage'],
};

export function mayDo(role: Role, permission: Permission): boolean {
  return GRANTED[role].includes(permission);
}

/** Roles that may do it, for a message. */
export function rolesThatMay(permission: Permission): readonly Role[] {
  return ROLES.filter((role) => mayDo(role, permission));
}
