import { z } from 'zod';
import type { HouseRules } from '../batch/house-rules.ts';
import {
  choiceField,
  idField,
  nameField,
  parseFields,
  readJson,
  record,
  refuseRepeats,
  remedy,
} from './json.ts';

export const HOUSE_RULES_FILE = 'house-rules.json';

const limitIdField = nameField;
const boundField = z.number(remedy('must be a number')).min(0, remedy('must not be negative'));
const names = (what: string) =>
  z
    .array(idField, remedy(`must be a list of ${what}`))
    .min(1, remedy('must not be empty; leave it out instead'));

const tighterSchema = record(
  { limitId: limitIdField, bound: boundField, reason: nameField.exactOptional() },
  'must be a rule with limitId and bound',
);

const ownSchema = record(
  {
    id: idField,
    says: nameField,
    numerator: nameField,
    basis: nameField,
    sense: choiceField(['max', 'min']),
    bound: boundField,
    unit: choiceField(['percent', 'ppm']),
    products: names('product ids').exactOptional(),
    productClasses: names('product classes').exactOptional(),
  },
  'must be a limit with id, says, numerator, basis, sense, bound and unit',
);

const switchedOffSchema = record(
  {
    limitId: limitIdField,
    reason: z
      .string(remedy('must say why; it stands on the sheet'))
      .regex(/\S.{9}/, remedy('must say why in a few words; it stands on the sheet')),
    products: names('product ids').exactOptional(),
  },
  'must be a rule with limitId and reason',
);

/** How sure to be of one limit; the API takes the same form. */
export const certainLimitSchema = record(
  {
    limitId: limitIdField,
    confidence: z
      .number(remedy('must be a number'))
      .gt(0.5, remedy('must be above 0.5; a limit holds half of the time without any margin'))
      .max(0.9999, remedy('must be at most 0.9999')),
    products: names('product ids').exactOptional(),
  },
  'must be a rule with limitId and confidence, such as {"limitId": "house-fat-max", "confidence": 0.95}',
);

const MOST = 200;
const list = <Item extends z.ZodType>(item: Item) =>
  z
    .array(item, remedy('must be a list'))
    .max(MOST, remedy(`must hold at most ${MOST} rules`))
    .default([]);

/** The JSON form of a plant's own rules. */
export const houseRulesSchema = record(
  {
    tighter: list(tighterSchema).superRefine(refuseRepeats('limitId', 'keep the tighter of the two')),
    own: list(ownSchema).superRefine(refuseRepeats('id', 'give each limit its own id')),
    switchedOff: list(switchedOffSchema),
    certainty: list(certainLimitSchema).superRefine(refuseRepeats('limitId', 'keep the higher confidence')),
  },
  'must be an object with tighter, own, switchedOff and certainty',
);

/**
 * Reads the file of a plant's own rules.
 * @throws TableError naming the file and the field of every fault.
 */
export function readHouseRules(file: string, text: string): HouseRules {
  return readJson(file, text, (value) => parseFields(houseRulesSchema, value));
}
