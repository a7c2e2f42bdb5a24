import { z } from 'zod';
import { LANGUAGES, PAPERS, type Plant } from '../batch/plant.ts';
import { MASS_UNITS } from '../units.ts';
import { floorSchema } from './floor.ts';
import {
  choiceField,
  idField,
  massField,
  nameField,
  parseFields,
  readJson,
  record,
  refuseRepeats,
  remedy,
} from './json.ts';

/** A plant as its file describes it. A demonstration freezes the day it is about; a real plant does not. */
export interface PlantFile extends Plant {
  readonly demoDate?: string;
  /** What its floor asks of every choice of lots, where a request says nothing of it. */
  readonly floor?: z.output<typeof floorSchema>;
}

const scaleSchema = record(
  {
    id: idField,
    name: nameField,
    unit: choiceField(MASS_UNITS),
    division: z
      .string(remedy('must be a text such as "0.01": the digits the scale shows are kept as written'))
      .regex(/^(?=.*[1-9])\d+(?:\.\d+)?$/, remedy('must be the smallest step of the scale, such as "0.01"')),
    capacity: z.number(remedy('must be a number')).gt(0, remedy('must be above 0')),
  },
  'must be a scale with id, name, unit, division and capacity',
).refine(({ division, capacity }) => Number(division) < capacity, {
  path: ['division'],
  error: ({ input }) => {
    const { division, capacity } = input as { division: string; capacity: number };
    return `"${division}" is not below the capacity ${capacity}; write the smallest step the scale shows`;
  },
});

const printingSchema = record(
  {
    paper: choiceField(PAPERS).exactOptional(),
    language: choiceField(LANGUAGES).exactOptional(),
    labelStock: idField.exactOptional(),
    priceCode: record(
      {
        numberSystem: choiceField(['2']),
        priceVerifier: z.boolean(remedy('must be true or false')),
      },
      'must be such as {"numberSystem": "2", "priceVerifier": false}',
    ).exactOptional(),
  },
  'must say how the plant prints: paper, language, labelStock, priceCode',
);

/** The JSON form of a plant. */
export const plantSchema = record(
  {
    name: nameField,
    establishment: nameField,
    jurisdiction: idField,
    currency: z
      .string(remedy('must be a currency code such as "USD"'))
      .regex(/^[A-Z]{3}$/, remedy('must be a currency code such as "USD"')),
    units: choiceField(['lb', 'kg']),
    timeZone: z
      .string(remedy('must be a time zone such as "America/Chicago"'))
      .refine(isTimeZone, remedy('must be a time zone such as "America/Chicago"')),
    mixerCapacity: massField,
    scales: z
      .array(scaleSchema, remedy('must be a list of scales'))
      .min(1, remedy('must hold at least one scale'))
      .superRefine(refuseRepeats('id', 'give each scale its own id')),
    floor: floorSchema
      .refine(({ wholeBoxes }) => !Array.isArray(wholeBoxes), {
        path: ['wholeBoxes'],
        error: 'names lots, which come and go; write "all" or "frozen"',
      })
      .exactOptional(),
    address: z
      .array(nameField.max(80, remedy('must have at most 80 signs')), remedy('must be a list of lines'))
      .min(1, remedy('must hold a line, or be left out'))
      .max(5, remedy('must hold at most 5 lines'))
      .exactOptional(),
    printing: printingSchema.exactOptional(),
    demoDate: z.iso.date(remedy('must be a calendar day such as "2026-11-25"')).exactOptional(),
  },
  'must be an object that describes the plant',
).transform(({ mixerCapacity, ...plant }): PlantFile => ({ ...plant, mixerCapacityKg: mixerCapacity }));

/**
 * Reads the file of a plant.
 * @throws TableError naming the file and the field of every fault.
 */
export function readPlant(file: string, text: string): PlantFile {
  return readJson(file, text, (value) => parseFields(plantSchema, value));
}

function isTimeZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: name });
    return true;
  } catch {
    return false;
  }
}
