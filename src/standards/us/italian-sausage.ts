import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import { LAW } from '../shapes.ts';

/** What Italian sausage must hold, 9 CFR 319.145(a). */

const PARAGRAPH = { ...LAW, citation: '9 CFR 319.145(a)', read: 'official', basis: FORMS.formula } as const;

const present = (name: string, numerator: Limit['numerator']): Limit => ({
  ...PARAGRAPH,
  id: `us-319.145a-${name}`,
  says: `Italian sausage holds ${numerator.says}.`,
  numerator,
  sense: 'present',
  bound: 0,
});

export const ITALIAN: readonly Limit[] = [
  {
    ...PARAGRAPH,
    id: 'us-319.145a-meat',
    says: 'Meat, or meat and fat, is at least 85 % of Italian sausage.',
    numerator: FORMS.meatOrFat,
    sense: 'min',
    bound: 0.85,
  },
  {
    ...PARAGRAPH,
    id: 'us-319.145a-fat',
    says: 'Italian sausage holds at most 35 % fat, judged on the raw mix.',
    numerator: FORMS.fat,
    bound: 0.35,
    citation: '9 CFR 319.145(a), (c)',
    note: 'Paragraph (a) says finished product; (c) takes the raw mix where it is cooked or smoked.',
  },
  present('salt', FORMS.saltPutIn),
  present('pepper', FORMS.pepper),
  present('fennel-or-anise', FORMS.fennelOrAnise),
];
