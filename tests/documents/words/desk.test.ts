import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ROLES } from '../../../src/api/access/roles.ts';
import { PROBLEMS } from '../../../src/api/problem.ts';
import { LOT_STATES } from '../../../src/batch/lot.ts';
import { ALLERGENS, MATERIAL_KINDS, SPECIES, SUBSTANCES } from '../../../src/batch/material.ts';
import { SEASONING_BASES, TARGET_MEASURES } from '../../../src/batch/product.ts';
import { inSpanish, SAID, spanishOf } from '../../../src/documents/words/desk/in-spanish.ts';
import { SPANISH_SENTENCES } from '../../../src/documents/words/spanish-sentences.ts';
import { placesIn } from '../../../src/documents/words/teller.ts';
import { MOVEMENT_KINDS } from '../../../src/ledger/movement.ts';
import { BATCH_STATES } from '../../../src/making/batch.ts';
import { formsOf } from '../../../src/rules/form.ts';
import { FORMS } from '../../../src/rules/forms.ts';
import { type Limit, sourceOf } from '../../../src/rules/limit.ts';
import { MASS_BALANCE } from '../../../src/rules/mass-balance.ts';
import { RULE_SETS } from '../../../src/standards/all.ts';
import { expectSpanish } from './known.ts';

const limits = RULE_SETS.flatMap(({ standards }) => standards.flatMap((standard) => standard.limits));
const numeratorsOf = ({ numerator }: Limit) => [
  numerator.says,
  ...formsOf(numerator).map(({ says }) => says),
];

describe('Spanish for the desk has', () => {
  it.each(RULE_SETS.map(({ jurisdiction, ...rules }) => [jurisdiction, rules] as const))(
    'every product class and limit of %s',
    (_, { says, standards }) => {
      expectSpanish([says, ...standards.map((standard) => standard.says)]);
      expectSpanish(standards.flatMap((standard) => standard.limits.map((limit) => limit.says)));
      expectSpanish(standards.flatMap(({ laboratory = [] }) => laboratory.map((limit) => limit.says)));
    },
  );

  it('limits with their rule, as a lot is left out by one', () => {
    expectSpanish(limits.map((limit) => `${limit.says} (${sourceOf(limit)})`));
    expectSpanish(limits.map((limit) => `House limit of 1 %, inside the law's: ${limit.says}`));
    expectSpanish(MASS_BALANCE.map(({ says }) => says));
  });

  it('all that is counted, and what it is measured against', () => {
    expectSpanish(
      Object.values(FORMS).flatMap((form) => [form.says, ...formsOf(form).map(({ says }) => says)]),
    );
    expectSpanish(limits.flatMap((limit) => [...numeratorsOf(limit), limit.basis.says]));
  });

  it('kinds, species, substances, allergens, states and the other short words', () => {
    expectSpanish([...MATERIAL_KINDS, ...SPECIES, ...SUBSTANCES, ...ALLERGENS]);
    expectSpanish([
      ...SEASONING_BASES,
      ...TARGET_MEASURES,
      ...LOT_STATES,
      ...BATCH_STATES,
      ...MOVEMENT_KINDS,
    ]);
    expectSpanish(ROLES);
  });

  it('the title of every problem', () => {
    expectSpanish(Object.values(PROBLEMS).map(({ title }) => title));
  });
});

describe('Spanish for the desk', () => {
  it.each([
    ['Ground beef holds at most 30 % fat.', 'Carne molida de res: como máximo 30 % de grasa.'],
    [
      'Ingoing nitrite in chopped or ground cured meat is at most 156 ppm of the green weight. (9 CFR 424.21(c) [secondary])',
      'Nitrito agregado en carne curada picada o molida: como máximo 156 ppm del peso de carne cruda. (9 CFR 424.21(c) [fuente secundaria])',
    ],
    [
      'Target: fat of the finished product is at most 3 %. The nearest blend has 4.8 percent of fat where at most 3 is asked. Change this target, or receive meat with less of it.',
      'Objetivo: grasa del producto terminado, como máximo 3 %. La mezcla más cercana tiene 4.8 por ciento de grasa donde se pide como máximo 3. Cambie este objetivo o reciba carne con menos de eso.',
    ],
    [
      'Any one of these leads to a blend: Raise "fat" from 3 to 5 % of finished product. Or: Buy 12.00 lb of Beef trim, 97 % lean (at 3.10 USD per lb).',
      'Cualquiera de estos cambios lleva a una mezcla: Suba "grasa" de 3 a 5 % de producto terminado. O bien: Compre 12.00 lb de Beef trim, 97 % lean (a 3.10 USD por lb).',
    ],
    [
      'Lot L-7 is on hold: the supplier called. Twice. Release it first, or take another lot.',
      'El lote L-7 está retenido: the supplier called. Twice. Libérelo primero o tome otro lote.',
    ],
    [
      'NOT LAWFUL as it stands: nitrite, by the weight of the salt in load 2: at most 156 ppm, found 165.1 ppm. Correct the mix before it goes on; otherwise hold it, and let the inspector and your process authority decide what becomes of it.',
      'ASÍ COMO ESTÁ, NO ES LEGAL: nitrito, por el peso de la sal en la carga 2: como máximo 156 ppm, se encontró 165.1 ppm. Corrija la mezcla antes de seguir; si no, reténgala y deje que el inspector y su autoridad de proceso decidan qué se hace con ella.',
    ],
    [
      '"warm": it must be one of: chilled, frozen, dry',
      '"warm": debe ser uno de estos: refrigerado, congelado, seco',
    ],
    ['is missing; it must be above 0', 'falta; debe ser mayor de 0'],
  ])('says %s', (english, spanish) => {
    expect(inSpanish(english)).toBe(spanish);
  });

  it('leaves what people wrote and what is not known as it is', () => {
    for (const own of [
      'Tumble for 20 minutes',
      'B65-1120',
      '',
      '{percent} %',
      'toString',
      '__proto__',
      'Beef, pork and rice',
    ])
      expect(inSpanish(own), own).toBe(own);
  });

  it('fills the same places as English', () => {
    for (const [english, spanish] of SAID)
      expect(placesIn(spanish).sort(), english).toEqual(placesIn(english).sort());
  });

  it('says each thing once', () => {
    const seen = new Map<string, number>();
    for (const [english] of SAID) seen.set(english, (seen.get(english) ?? 0) + 1);
    expect([...seen].filter(([, times]) => times > 1)).toEqual([]);
  });

  it('never throws, and says the same again, whatever comes', () => {
    const pieces = fc.array(
      fc.oneof(
        fc.constantFrom(...SAID.flat()),
        fc.constantFrom(' ', '. ', '; ', ' Or: ', '(', '"', '{lot}'),
        fc.string(),
      ),
      { maxLength: 6 },
    );
    fc.assert(
      fc.property(pieces, (parts) => {
        const sentence = parts.join('');
        const spanish = inSpanish(sentence);
        expect(typeof spanish).toBe('string');
        expect(inSpanish(sentence)).toBe(spanish);
        expect(spanish).toBe(spanishOf(sentence) ?? sentence);
      }),
      { numRuns: 500 },
    );
  });

  it('has the floor sentences too', () => {
    expectSpanish(
      SPANISH_SENTENCES.map(([english]) =>
        placesIn(english).reduce((text, place) => text.replace(`{${place}}`, '7'), english),
      ),
    );
  });
});
