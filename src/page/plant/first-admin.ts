import { ask, newKey } from '../service/ask.ts';
import { tellWritten } from '../service/written.ts';

/**
 * Adds the first person to an open demonstration and logs them in at once: from then on everyone logs in, and whoever
 * has just done it should not stand outside. @throws Refused, Unreached
 */
export async function addFirstAdmin(name: string, password: string): Promise<void> {
  await ask({ method: 'POST', path: '/people', body: { name, role: 'admin', password }, key: newKey() });
  await ask({ method: 'POST', path: '/session', body: { name, password } });
  tellWritten();
}
