import type { BlendRow } from '../row.ts';

/**
 * Blends with a published or closed-form least cost, through the whole of the formulation. Weights may stand
 * two divisions of the scale (0.01) off the answer: the blend is stepped inside its limits before rounding.
 */

export const BLEND_ROWS: readonly BlendRow[] = [
  {
    kind: 'blend',
    id: 'K-24',
    says: '1,000 lb of 85/15 from 94 % and 73 % lean trim are 571.43 lb and 428.57 lb.',
    source: 'closed form of a blend of two',
    mark: 'constructed',
    productClass: 'ground-beef',
    unit: 'lb',
    total: 1000,
    supplies: [
      ['beef-fat-06', 3.1, 2000],
      ['beef-fat-27', 2.2, 2000],
    ],
    fat: { max: 0.15 },
    published: { 'beef-fat-06': 571.43, 'beef-fat-27': 428.57 },
    tolerance: 0.01,
  },
  {
    kind: 'blend',
    id: 'meat loaf, first edition',
    says: 'A loaf at least 70 % lean of beef at 0.75 and pork at 0.45 is 100 lb and 50 lb and costs 97.50.',
    source:
      'Algebra and Trigonometry, 11th ed., ch. 12, problem 25; optimum at studyquestionhub.com, question 25',
    mark: 'secondary',
    productClass: 'uncooked-sausage',
    unit: 'lb',
    total: 150,
    supplies: [
      ['beef-fat-25', 0.75, 200],
      ['pork-fat-40', 0.45, 1000],
    ],
    fat: { max: 0.3 },
    published: { 'beef-fat-25': 100, 'pork-fat-40': 50 },
    publishedCost: 97.5,
    tolerance: 0.02,
  },
  {
    kind: 'blend',
    id: 'meat loaf, later edition',
    says: '180 lb of the loaf at 2.25 and 1.35 are 120 lb and 60 lb and cost 351.00.',
    source: 'the same exercise in a later edition, solved in closed form (no optimum was seen in print)',
    mark: 'constructed',
    productClass: 'uncooked-sausage',
    unit: 'lb',
    total: 180,
    supplies: [
      ['beef-fat-25', 2.25, 200],
      ['pork-fat-40', 1.35, 1000],
    ],
    fat: { max: 0.3 },
    published: { 'beef-fat-25': 120, 'pork-fat-40': 60 },
    publishedCost: 351,
    tolerance: 0.02,
  },
  {
    kind: 'blend',
    id: 'butcher',
    says: 'Beef at 6, pork at 4 at most a quarter of it and 10 kg of fat at 2: 50 kg are 32, 8 and 10 kg.',
    source: 'algebra.com, question 1148051, with its published answer',
    mark: 'secondary',
    productClass: 'uncooked-sausage',
    unit: 'kg',
    total: 50,
    supplies: [
      ['beef', 6, 1000],
      ['pork', 4, 1000],
      ['pork-fat', 2, 10],
    ],
    // Pork at most a quarter of the beef, with the 10 kg of fat all in, is beef at least 64 % of 50 kg.
    least: ['beef', 0.64],
    published: { beef: 32, pork: 8, 'pork-fat': 10 },
    publishedCost: 244,
    tolerance: 0.02,
  },
];
