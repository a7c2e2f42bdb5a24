import type { PublishedRow } from '../row.ts';
import { printedRows } from './printed.ts';

/** Codex Alimentarius. */

const DATABASE =
  'GSFA database of the Codex secretariat, nitrites (INS 249, 250), food categories 08.2.2 and 08.3: "80 mg/kg", note 32 "As residual NO2 ion"';
const PHOSPHATES =
  'GSFA database of the Codex secretariat, food category 08.2.1, phosphates: "2200 mg/kg", note 33 "As phosphorus"';
const HAM =
  'CXS 96-1981 as copied on a trade page: meat protein on a fat free basis, average 18.0 %, single unit 16.5 %';
const CORNED =
  'CXS 88-1981, an older text as copied in public: 100 mg/kg nitrite in, 50 mg/kg in the final product, as sodium nitrite; ascorbic and iso-ascorbic acid 300 mg/kg';

export const CODEX_ROWS: readonly PublishedRow[] = [
  ...printedRows('ppm', [
    ['CX-01', 'codex-192-nitrite', 80, 'nitriteIon', 'finished', DATABASE, 'secondary'],
    ['CX-01 luncheon', 'codex-89-nitrite', 80, 'nitriteIon', 'finished', DATABASE, 'secondary'],
    ['CX-01 chopped', 'codex-98-nitrite', 80, 'nitriteIon', 'finished', DATABASE, 'secondary'],
    ['CX-09 nitrite', 'codex-88-nitrite', 100, 'nitriteAsSodiumNitrite', 'formula', CORNED, 'secondary'],
    ['CX-09 ascorbate', 'codex-88-ascorbate', 300, 'accelerators', 'formula', CORNED, 'secondary'],
  ]),
  ...printedRows('percent', [
    ['CX-04', 'codex-192-phosphate-cuts', 0.22, 'phosphateAsPhosphorus', 'finished', PHOSPHATES, 'secondary'],
    [
      'CX-05',
      'codex-192-phosphate-comminuted',
      0.22,
      'phosphateAsPhosphorus',
      'finished',
      'GSFA, food category 08.3',
      'from memory, verify',
    ],
    ['CX-07', 'codex-96-protein', 18, 'meatProtein', 'finishedWithoutFat', HAM, 'secondary'],
  ]),
  {
    kind: 'equivalent',
    id: 'codex CX-04 P2O5',
    says: '2200 mg/kg of phosphorus are 5041 mg/kg of phosphorus pentoxide.',
    source: `arithmetic from ${PHOSPHATES}`,
    mark: 'constructed',
    part: 'P2O5',
    whole: 'P',
    count: 0.5,
    of: 2200,
    published: 5041,
    tolerance: 0.5,
  },
  {
    kind: 'verdict',
    id: 'codex T-05',
    says: 'A cure of 150 ppm of sodium nitrite, 100 ppm of the ion, is not passed on the hope of what will be left.',
    source: DATABASE,
    mark: 'constructed',
    limitId: 'codex-192-nitrite',
    lines: [
      ['sodium-nitrite', '0.15'],
      ['pork', '999.85'],
    ],
    holds: false,
  },
];
