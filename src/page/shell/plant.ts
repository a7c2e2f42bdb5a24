import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { z } from 'zod';
import type { sessionAnswer } from '../../api/access/contract.ts';
import type { Permission } from '../../api/access/roles.ts';
import type { plantAnswer } from '../../api/contract/resources.ts';

export type PlantAnswer = z.output<typeof plantAnswer>;
export type SessionAnswer = z.output<typeof sessionAnswer>;

/** Where the page stands: whose plant, and who looks. */
export interface Here {
  readonly plant: PlantAnswer;
  readonly session: SessionAnswer;
}

export const HereContext = createContext<Here | undefined>(undefined);

export function useHere(): Here {
  const here = useContext(HereContext);
  if (!here) throw new Error('useHere is called outside the page');
  return here;
}

/** Whether whoever looks may do it: what they may not is not offered. */
export function useMay(): (permission: Permission) => boolean {
  const { session } = useHere();
  return (permission) => session.caller?.may.includes(permission) ?? false;
}
