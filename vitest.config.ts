import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    // Tests share no state but what modules work out once: loading those again for each file took a fifth of the time.
    isolate: false,
    globalSetup: ['tests/postgres-server.ts'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
