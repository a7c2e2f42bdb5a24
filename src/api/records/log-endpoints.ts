import type { z } from 'zod';
import { CLEANINGS_TABLE } from '../../documents/logs/cleanings.ts';
import { FAT_TESTS_TABLE } from '../../documents/logs/fat-tests.ts';
import { GRINDING_TABLE } from '../../documents/logs/grinding.ts';
import { type Log, type LogTable, logCsv, logPage } from '../../documents/logs/log.ts';
import { RESTRICTED_TABLE } from '../../documents/logs/restricted-ingredients.ts';
import type { Days } from '../../store/logs.ts';
import type { Db } from '../../store/open.ts';
import { type Books, momentOf } from '../books.ts';
import type { Endpoint } from '../endpoint.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import { Problem } from '../problem.ts';
import { cleaningLog, recordCleaning } from './cleanings.ts';
import {
  cleaningAnswer,
  cleaningSchema,
  cleaningsAnswer,
  fatTestsAnswer,
  grindingAnswer,
  type LogQuery,
  logQuery,
  restrictedAnswer,
} from './contract.ts';
import { fatTestLog } from './fat-test-log.ts';
import { grindingLog } from './grinding-log.ts';
import { PRINTED_HEADERS } from './printed.ts';
import { restrictedLog } from './restricted-log.ts';
import { dayLater } from './times.ts';

/** Logs that an inspector asks for: as data, as a table for a spreadsheet and as a page to print. */
export function logEndpoints(books: Books): Endpoint[] {
  const tag = 'Logs';
  const log = <Item, Row>(
    name: string,
    says: string,
    gives: z.ZodType,
    table: LogTable<Item, Row>,
    read: (db: Db, data: PlantBooks, days: Days) => Promise<Pick<Log<Item>, 'title' | 'notes' | 'items'>>,
  ): Endpoint => ({
    method: 'GET',
    path: `/logs/${name}`,
    tag,
    says,
    may: 'read',
    query: logQuery,
    gives,
    forms: {
      'text/csv': ((body: Log<Item>) => logCsv(table, body)) as (body: never) => string,
      'text/html': ((body: Log<Item>) => logPage(table, body)) as (body: never) => string,
    },
    handle: async ({ query }) => {
      const data = await books.plant();
      const days = daysOf(query as LogQuery, momentOf(data, books.now()).day);
      const { name: plant, establishment, timeZone } = data.plant;
      const found = await books.store.read((db) => read(db, data, days));
      return { body: { plant, establishment, timeZone, ...days, ...found }, headers: PRINTED_HEADERS };
    },
  });
  return [
    log('grinding', 'Grinding log of raw ground beef', grindingAnswer, GRINDING_TABLE, grindingLog),
    log('fat-tests', 'Fat tests of lots and of batches', fatTestsAnswer, FAT_TESTS_TABLE, fatTestLog),
    log(
      'restricted-ingredients',
      'Every weighing of a cure or another restricted ingredient',
      restrictedAnswer,
      RESTRICTED_TABLE,
      restrictedLog,
    ),
    log('cleanings', 'Cleanings of equipment', cleaningsAnswer, CLEANINGS_TABLE, cleaningLog),
    {
      method: 'POST',
      path: '/cleanings',
      tag,
      says: 'Write a cleaning down',
      may: 'work',
      takes: cleaningSchema,
      example: { equipment: ['grinder', 'mixer'], what: 'cleaned and sanitized' },
      gives: cleaningAnswer,
      status: 201,
      handle: (call) => recordCleaning(books, call),
    },
  ];
}

/** A week, unless the days are given. */
const USUAL_DAYS = 7;
const MOST_DAYS = 366;

/** @throws Problem for days that are in the wrong order or too many. */
function daysOf({ fromDay, toDay }: LogQuery, today: string): Days {
  const last = toDay ?? (fromDay !== undefined && fromDay > today ? fromDay : today);
  const first = fromDay ?? dayLater(last, 1 - USUAL_DAYS);
  const refuse = (message: string) =>
    new Problem('invalid-request', 'One field is wrong.', { errors: [{ pointer: '/fromDay', message }] });
  if (first > last) throw refuse(`${first} is after ${last}, the last day; exchange them`);
  if (first < dayLater(last, 1 - MOST_DAYS))
    throw refuse(`is more than ${MOST_DAYS} days before ${last}; ask for a year at most`);
  return { fromDay: first, toDay: last };
}
