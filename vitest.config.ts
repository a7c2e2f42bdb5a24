import { defineConfig } from 'vitest/config';

/** Folders whose tests start no service, write no store and leave nothing behind: they share their modules. */
const PURE = [
  'batch',
  'correct',
  'documents',
  'formulate',
  'labels',
  'ledger',
  'making',
  'page',
  'plan',
  'published',
  'rules',
  'solver',
  'standards',
  'tables',
].map((folder) => `tests/${folder}/**/*.test.ts`);

export default defineConfig({
  test: {
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // By itself it leaves a core free, which on two cores is half of the machine.
    maxWorkers: '100%',
    projects: [
      { extends: true, test: { name: 'pure', include: PURE, isolate: false } },
      {
        extends: true,
        test: {
          name: 'whole',
          include: ['tests/**/*.test.ts'],
          exclude: PURE,
          globalSetup: ['tests/postgres-server.ts'],
        },
      },
    ],
  },
});
