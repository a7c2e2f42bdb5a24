import type { Logger } from 'pino';
import { dropOldAnswers } from '../store/kept-answers.ts';
import { dropEnded } from './access/sessions.ts';
import type { Books } from './books.ts';

const EVERY_MS = 24 * 60 * 60_000;

/**
 * Takes out what is kept for a while only, now and every day: sessions that have ended and answers for repeated
 * requests. A store that cannot be written now is tidied another day.
 * @returns what ends it.
 */
export async function keepTidy(books: Books, logger: Pick<Logger, 'warn'>): Promise<() => void> {
  const once = () => tidy(books, logger);
  await once();
  const timer = setInterval(once, EVERY_MS);
  timer.unref();
  return () => clearInterval(timer);
}

async function tidy({ store, now }: Books, logger: Pick<Logger, 'warn'>): Promise<void> {
  try {
    await store.note(async (db) => {
      await dropEnded(db, now());
      await dropOldAnswers(db, now());
    });
  } catch (error) {
    logger.warn({ err: error }, 'old sessions and kept answers could not be taken out');
  }
}
