import { build, isBuilt } from '../build.mjs';
import { runTool } from '../run.mjs';

/**
 * What is checked without running the program. Independent of each other: two at a time, in this order. What takes a minute and
 * no test waits for is done `beside` the tests, which wait for browsers half of their time.
 */
export const stillSteps = [
  { name: 'format', run: () => runTool('@biomejs/biome/bin/biome', ['check', '.']) },
  {
    name: 'lint',
    beside: true,
    run: () => runTool('eslint/bin/eslint.js', ['.', '--max-warnings', '0']),
  },
  { name: 'types', run: () => runTool('typescript-native/bin/tsc', ['--noEmit', '-p', 'tsconfig.json']) },
  { name: 'build', run: () => (isBuilt() ? { code: 0, output: 'Built already.\n' } : build()) },
  {
    name: 'direction of imports',
    run: () => runTool('../.setup/checks/direction.mjs', []),
  },
];

export const seconds = (from) => (performance.now() - from) / 1000;

/**
 * Runs steps two at a time. After the first failure no new step begins.
 *
 * @param done is told of each step as it ends: name, seconds, whether it passed, its output
 * @returns the steps as they ended; those that never began are missing
 */
export async function runStill(steps, done) {
  const waiting = [...steps];
  const ended = [];
  const lane = async () => {
    while (waiting.length > 0 && ended.every((each) => each.passed)) {
      const step = waiting.shift();
      const from = performance.now();
      const { code, output } = await step.run();
      const result = { name: step.name, time: seconds(from), passed: code === 0, output };
      ended.push(result);
      done(result);
    }
  };
  await Promise.all([lane(), lane()]);
  return ended;
}
