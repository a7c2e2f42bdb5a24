import type { LotAnswer, MaterialAnswer } from './stock-types.ts';

/**
 * Materials that hold every word typed: first those that lately came from the supplier, then those that lately came, then
 * by name. @param most how many are of use on the screen.
 */
export function materialsFor(
  search: string,
  materials: Iterable<MaterialAnswer>,
  lots: readonly LotAnswer[],
  supplier: string | undefined,
  most: number,
): MaterialAnswer[] {
  const words = search.toLowerCase().split(/\s+/).filter(Boolean);
  const latest = new Map<string, string>();
  for (const { materialId = '', receivedDate, supplierEstablishment } of lots) {
    // A day of the same supplier comes before every other day.
    const rank = `${supplier !== undefined && supplier === supplierEstablishment ? 1 : 0}${receivedDate}`;
    if (rank > (latest.get(materialId) ?? '')) latest.set(materialId, rank);
  }
  const rankOf = ({ id }: MaterialAnswer) => latest.get(id) ?? '';
  return [...materials]
    .filter(({ kind }) => kind !== 'rework')
    .filter(({ id, name, species = '' }) => {
      const text = `${id} ${name} ${species}`.toLowerCase();
      return words.every((word) => text.includes(word));
    })
    .toSorted((a, b) => rankOf(b).localeCompare(rankOf(a)) || a.name.localeCompare(b.name))
    .slice(0, most);
}
