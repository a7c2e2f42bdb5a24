import { defaultFatSd } from '../../batch/fat-certainty.ts';
import { type FatTest, trimKnowledge } from '../../batch/trim-learning.ts';
import { grouped } from '../../ledger/trace.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import type { TrimSeriesAnswer } from './contract.ts';

type Item = TrimSeriesAnswer['items'][number];

/**
 * The fat of each supplier's trim, lot by lot, beside what its class says and what the lots have taught.
 * @param today later tests are not known yet. @param most latest lots of each trim.
 */
export function trimSeries(
  { fatTests, materials }: Pick<PlantBooks, 'fatTests' | 'materials'>,
  today: string,
  most: number,
): TrimSeriesAnswer {
  const known = fatTests.filter(
    ({ supplierEstablishment, date }) => supplierEstablishment !== '' && date <= today,
  );
  const byTrim = grouped(known, trimOf);
  return {
    items: trimKnowledge(known, materials, today).flatMap((knowledge): Item[] => {
      const { materialId, supplierEstablishment, lots, classMeanFraction, ...learned } = knowledge;
      const material = materials.get(materialId);
      if (!material) return [];
      return [
        {
          materialId,
          material: material.name,
          supplierEstablishment,
          classMeanFraction,
          classSdFraction: defaultFatSd(material),
          meanFraction: learned.meanFraction,
          sdFraction: learned.sdFraction,
          shrinkage: learned.shrinkage,
          lotCount: lots,
          lots: lotsInOrder(byTrim.get(trimOf(knowledge)) ?? []).slice(-most || lots),
        },
      ];
    }),
  };
}

const trimOf = ({
  supplierEstablishment,
  materialId,
}: Pick<FatTest, 'supplierEstablishment' | 'materialId'>) =>
  JSON.stringify([supplierEstablishment, materialId]);

/** Lots by the day of their first test, each with the mean of its tests; a test that names no lot is one of its own. */
function lotsInOrder(tests: readonly FatTest[]): Item['lots'] {
  const byLot = grouped(
    tests.map((test, at) => ({
      ...test,
      key: test.lotId === undefined ? `test ${at}` : `lot ${test.lotId}`,
    })),
    ({ key }) => key,
  );
  return [...byLot.values()]
    .map((own) => ({
      ...(own[0]?.lotId !== undefined && { lotId: own[0].lotId }),
      date: own.map(({ date }) => date).sort()[0] ?? '',
      fatFraction: Number((own.reduce((sum, test) => sum + test.fatFraction, 0) / own.length).toFixed(12)),
      tests: own.length,
      methods: [...new Set(own.map(({ method }) => method))],
    }))
    .sort((one, other) => (one.date < other.date ? -1 : Number(one.date > other.date)));
}
