import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** The journeys take a minute each: begun first, none of them runs on alone when all else has ended. */
class JourneysFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const isJourney = (file: TestSpecification) => (file.moduleId.includes('/test/journeys/') ? 0 : 1);
    return (await super.sort(files)).sort((one, other) => isJourney(one) - isJourney(other));
  }
}

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    exclude: ['test/bench/**', 'node_modules/**'],
    pool: 'forks',
    maxWorkers: 2,
    // Loading every module anew for each file took a third of the run; files leave nothing behind for the next.
    isolate: false,
    sequence: { sequencer: JourneysFirst },
    testTimeout: 30_000,
    hookTimeout: 60_000,
    // Whatever still stands when all is told is ended: nothing is lost by not waiting for it.
    teardownTimeout: 1000,
  },
});
