import { MEAT_KINDS } from '../../batch/material.ts';
import { searching } from '../figures/search.ts';
import type { LotAnswer, MaterialAnswer } from './stock-types.ts';

/**
 * Materials that hold every word typed: first those that lately came from the supplier, then those that lately came, then
 * meat, then by name. @param most how many are of use on the screen.
 */
export function materialsFor(
  search: string,
  materials: Iterable<MaterialAnswer>,
  lots: readonly LotAnswer[],
  supplier: string | undefined,
  most: number,
): MaterialAnswer[] {
  const holds = searching(search);
  const latest = new Map<string, string>();
  for (const { materialId = '', receivedDate, supplierEstablishment } of lots) {
    // A day of the same supplier comes before every other day.
    const rank = `${supplier !== undefined && supplier === supplierEstablishment ? 1 : 0}${receivedDate}`;
    if (rank > (latest.get(materialId) ?? '')) latest.set(materialId, rank);
  }
  const isMeat = ({ kind }: MaterialAnswer) => MEAT_KINDS.some((meat) => meat === kind);
  const rankOf = ({ id }: MaterialAnswer) => latest.get(id) ?? '';
  return [...materials]
    .filter(({ kind }) => kind !== 'rework')
    .filter(({ id, name, species = '' }) => holds(`${id} ${name} ${species}`))
    .toSorted(
      (a, b) =>
        rankOf(b).localeCompare(rankOf(a)) ||
        Number(isMeat(b)) - Number(isMeat(a)) ||
        a.name.localeCompare(b.name),
    )
    .slice(0, most);
}
