import { defineConfig } from 'vitest/config';

// Real editors: one after the other, with time to start.
export default defineConfig({
  test: {
    include: ['tests/e2e/**/*.test.ts'],
    fileParallelism: false,
    maxWorkers: 1,
    testTimeout: 120_000,
    hookTimeout: 180_000,
    expect: { poll: { timeout: 30_000, interval: 100 } },
  },
});
