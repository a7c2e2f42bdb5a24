import type { PublishedRow } from '../row.ts';
import { printedRows } from './printed.ts';

/** Australia and New Zealand: Food Standards Code. */

const GAZETTE =
  'Food Standards Code, Standard 2.2.1 as in the New Zealand Gazette 2000 no. 170, p. 4676, clause 3, and the page of the health department of Western Australia on composition of meat products';
const CODE_2000 =
  'Food Standards Code, Standard 2.2.1 as made on 20 December 2000, legislation.gov.au F2008B00634';
const HEALTH_WA =
  'health department of Western Australia, compositional requirements and the addition of sulphur dioxide';
const MEMORY = 'Food Standards Code, Schedule 15, 8.2 and 8.3';

export const ANZ_ROWS: readonly PublishedRow[] = [
  ...printedRows('percent', [
    [
      'AN-01',
      'anz-2.2.1-sausage-flesh',
      50,
      'fatFreeMeatFlesh',
      'formula',
      `${GAZETTE}: "500 g/kg"`,
      'secondary',
    ],
    [
      'AN-02',
      'anz-2.2.1-sausage-fat',
      50,
      'fat',
      'fatFreeMeatFlesh',
      `${GAZETTE}: "500 g/kg of the fat free meat flesh"`,
      'secondary',
    ],
    [
      'AN-04 processed',
      'anz-2.2.1-processed-meat',
      30,
      'greenWeight',
      'formula',
      `${CODE_2000}: "300 g/kg"`,
      'secondary',
    ],
    [
      'AN-04 manufactured',
      'anz-2.2.1-manufactured-meat',
      66,
      'greenWeight',
      'formula',
      `${CODE_2000}: "660 g/kg"`,
      'secondary',
    ],
    ['AN-04 pie', 'anz-2.2.1-meat-pie', 25, 'meatFlesh', 'formula', `${CODE_2000}: "250 g/kg"`, 'secondary'],
    [
      'AN-05',
      'anz-2.2.1-cured-protein',
      16,
      'meatProtein',
      'finishedWithoutFat',
      `${CODE_2000}: "160 g/kg ... fat free"`,
      'secondary',
    ],
  ]),
  ...printedRows('ppm', [
    ['AN-08', 'anz-sch15-nitrite', 125, 'nitriteAsSodiumNitrite', 'finished', MEMORY, 'from memory, verify'],
    ['AN-09', 'anz-sch15-nitrate', 500, 'nitrateAsSodiumNitrate', 'finished', MEMORY, 'from memory, verify'],
    [
      'AN-10',
      'anz-sch15-sulfite-sausage',
      500,
      'sulfurDioxide',
      'finished',
      `${HEALTH_WA}: "500 mg/kg"`,
      'secondary',
    ],
  ]),
  {
    kind: 'value',
    id: 'anz flesh',
    says: 'Sausage of 650 g/kg of beef with a fifth of fat holds 520 g/kg of fat free meat flesh.',
    source: GAZETTE,
    mark: 'constructed',
    numerator: 'fatFreeMeatFlesh',
    basis: 'formula',
    as: 'percent',
    lines: [
      ['beef', '65'],
      ['water', '35'],
    ],
    published: 52,
    tolerance: 0,
  },
  {
    // 52 kg of fat free flesh in 65 kg of beef with 13 kg of fat; 13 kg more make the half of 52.
    kind: 'boundary',
    id: 'anz W-18, T-16',
    says: 'With 520 g/kg of fat free flesh fat is at most 260 g/kg, half of the flesh and not half of the sausage.',
    source: GAZETTE,
    mark: 'constructed',
    limitId: 'anz-2.2.1-sausage-fat',
    line: ['pork-fat', '14.4444'],
    beyond: '14.4445',
    others: [
      ['beef', '65'],
      ['water', '20'],
    ],
  },
  ...(
    [
      ['anz mince sulfite', 'mince', 'sulfite', false, 'No sulfite goes into plain mince.'],
      [
        'anz patty sulfite',
        'patties',
        'sulfite',
        false,
        'No sulfite goes into a patty that is not of sausage meat.',
      ],
      ['anz sausage sulfite', 'fresh-sausage', 'sulfite', true, 'Raw sausage may hold sulfite.'],
    ] as const
  ).map(
    ([id, productClass, materialId, allowed, says]): PublishedRow => ({
      kind: 'entry',
      id,
      says,
      source: HEALTH_WA,
      mark: 'secondary',
      jurisdiction: 'anz',
      productClass,
      materialId,
      allowed,
    }),
  ),
  {
    kind: 'entry',
    id: 'anz raw sausage nitrite',
    says: 'Nitrite does not go into raw sausage.',
    source: MEMORY,
    mark: 'from memory, verify',
    jurisdiction: 'anz',
    productClass: 'fresh-sausage',
    materialId: 'cure-6.25',
    allowed: false,
  },
];
