import type { Weighed } from '../../helpers/materials.ts';
import type { LimitCases } from './case.ts';
import { ANTIOXIDANTS, NITRATES, NITRITES, otherThan } from './groups.ts';

/** Codex Alimentarius. */

/** 80 mg of the ion are 119.98 mg of sodium nitrite. */
const ION_80 = {
  holds: [
    ['sodium-nitrite', '0.11997'],
    ['pork', '999.88003'],
  ] as Weighed[],
  fails: [
    ['sodium-nitrite', '0.11999'],
    ['pork', '999.88001'],
  ] as Weighed[],
};
/** 2200 mg of phosphorus are 5041 mg of pentoxide and 8.7096 g of tripolyphosphate. */
const PHOSPHORUS_2200 = {
  holds: [
    ['sodium-tripolyphosphate', '8.709'],
    ['pork', '991.291'],
  ] as Weighed[],
  fails: [
    ['sodium-tripolyphosphate', '8.711'],
    ['pork', '991.289'],
  ] as Weighed[],
};

export const CODEX_CASES: LimitCases = {
  atTheBound: {
    'codex-192-nitrite': ION_80,
    'codex-89-nitrite': ION_80,
    'codex-98-nitrite': ION_80,
    'codex-192-phosphate-cuts': PHOSPHORUS_2200,
    'codex-192-phosphate-comminuted': PHOSPHORUS_2200,
    // Protein 14.4 of 80: meat 96 kg with 19.2 kg of fat and 3.2 kg of water.
    'codex-96-protein': [
      ['pork', '96'],
      ['water', '3.2'],
    ],
    'codex-88-nitrite': [
      ['sodium-nitrite', '0.1'],
      ['beef', '999.9'],
    ],
    'codex-88-ascorbate': [
      ['ascorbic-acid', '0.3'],
      ['beef', '999.7'],
    ],
  },
  keptOut: {
    'codex-no-antioxidants': ANTIOXIDANTS,
    'codex-no-sulfite': ['sulfite'],
    'codex-192-no-nitrite': [...NITRITES, ...NITRATES],
    'codex-192-no-nitrate': NITRATES,
    'codex-96-pork-only': otherThan('pork'),
    'codex-88-beef-only': otherThan('beef'),
  },
  brings: {},
};
