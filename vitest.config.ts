import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    exclude: ['test/bench/**', 'node_modules/**'],
    pool: 'forks',
    maxWorkers: 2,
    // Loading every module anew for each file took a third of the run; files leave nothing behind for the next.
    isolate: false,
    testTimeout: 30_000,
    hookTimeout: 60_000,
  },
});
