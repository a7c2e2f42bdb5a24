import type { z } from 'zod';
import { CLEANINGS_TABLE } from '../../documents/logs/cleanings.ts';
import { FAT_TESTS_TABLE } from '../../documents/logs/fat-tests.ts';
import { GRINDING_TABLE } from '../../documents/logs/grinding.ts';
import { type Log, type LogTable, logCsv, logPage, logReport } from '../../documents/logs/log.ts';
import { RESTRICTED_TABLE } from '../../documents/logs/restricted-ingredients.ts';
import type { Days } from '../../store/logs.ts';
import type { Db } from '../../store/open.ts';
import { type Books, momentOf } from '../books.ts';
import type { Endpoint, Form } from '../endpoint.ts';
import { PDF, reportOnPaper } from '../paper.ts';
import type { PlantBooks } from '../plant-of-store.ts';
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
import { daysOf } from './days.ts';
import { fatTestLog } from './fat-test-log.ts';
import { grindingLog } from './grinding-log.ts';
import { PRINTED_HEADERS } from './printed.ts';
import { restrictedLog } from './restricted-log.ts';

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
      'text/csv': ((body: Log<Item>) => logCsv(table, body)) as Form,
      'text/html': ((body: Log<Item>) => logPage(table, body)) as Form,
      [PDF]: ((body: Log<Item>, query: LogQuery) =>
        reportOnPaper(books, logReport(table, body), query, { isLandscape: true, day: body.toDay })) as Form,
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
