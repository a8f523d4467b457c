import { mkdirSync, rmSync } from 'node:fs';
import { runStill, seconds, stillSteps } from './checks/steps.mjs';
import { inWords, readTally } from './checks/tally.mjs';
import { findPostgres, startPostgres } from './postgres/server.mjs';
import { prepare } from './prepare.mjs';
import { endWithParent, inRoot, runTool } from './run.mjs';

const begun = performance.now();
const table = [];
const say = (line) => process.stdout.write(`${line}\n`);
const heading = (name) => say(`\n── ${name}`);

/** Ends with all that was done and, as its last line, how many tests passed and failed. */
function close(tally, reason = '') {
  const names = ['set-up', ...stillSteps.map((step) => step.name), 'tests'];
  heading('in all');
  for (const name of names) {
    const step = table.find((each) => each.name === name);
    const time = step ? `${step.time.toFixed(1).padStart(7)} s` : '        –';
    const end = step ? (step.passed ? 'passed' : 'FAILED') : 'not reached';
    say(`${name.padEnd(22)}${time}  ${end}`);
    if (name === 'tests') {
      for (const [folder, each] of tally?.folders ?? []) say(`  ${folder.padEnd(29)}  ${inWords(each)}`);
    }
  }
  say(`${'altogether'.padEnd(22)}${seconds(begun).toFixed(1).padStart(7)} s`);
  const passed = reason === '' && table.every((step) => step.passed);
  if (reason) say(`Stopped: ${reason}`);
  say(tally ? inWords(tally.all) : '0 passed, 0 failed: no test was reached');
  process.exit(passed ? 0 : 1);
}

async function setUp() {
  heading('set-up');
  const from = performance.now();
  try {
    const ownServer = !process.env.TEST_POSTGRES_URL && process.env.WITHOUT_POSTGRES !== '1';
    const { browser, driver } = await prepare({ say, browser: true, postgres: ownServer, patient: false });
    if (!browser)
      throw new Error('The tests need a browser: install Chromium, or set PUPPETEER_EXECUTABLE_PATH.');
    const postgres = ownServer ? await startPostgres(findPostgres()) : null;
    const env = postgres ? { TEST_POSTGRES_URL: postgres.url } : {};
    say(
      `Ready: Node ${process.version}, a browser, ${postgres ? 'a PostgreSQL for this run' : 'no own PostgreSQL'}.`,
    );
    table.push({ name: 'set-up', time: seconds(from), passed: true });
    return { env, driver, stop: () => postgres?.stop() };
  } catch (error) {
    say(error.message);
    table.push({ name: 'set-up', time: seconds(from), passed: false });
    return close(null, 'the machine could not be made ready');
  }
}

async function still(steps) {
  const ended = await runStill(steps, ({ name, time, passed, output }) => {
    heading(`${name}: ${passed ? 'passed' : 'FAILED'} in ${time.toFixed(1)} s`);
    if (!passed) say(output.trimEnd());
    table.push({ name, time, passed });
  });
  return ended.filter((step) => !step.passed).map((step) => step.name);
}

async function tests(filter, env) {
  heading(filter.length > 0 ? `tests that match ${filter.join(' ')}` : 'tests');
  const from = performance.now();
  const report = inRoot('.cache', 'tests.json');
  mkdirSync(inRoot('.cache'), { recursive: true });
  rmSync(report, { force: true });
  const manner = ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
  const { code } = await runTool('vitest/vitest.mjs', [...manner, ...filter], { env, live: true });
  try {
    const tally = readTally(report);
    const passed = code === 0 && tally.all.failed === 0 && tally.all.passed > 0;
    table.push({ name: 'tests', time: seconds(from), passed });
    return tally;
  } catch {
    table.push({ name: 'tests', time: seconds(from), passed: false });
    return null;
  }
}

/** The driver is compiled beside the still checks, which do without it. */
async function driverReady(driver) {
  try {
    await driver;
    return '';
  } catch (error) {
    return error.message;
  }
}

endWithParent();
const { env, driver, stop } = await setUp();
const failed = await still(stillSteps.filter(({ beside }) => !beside));
const undriven = await driverReady(driver);
if (undriven) {
  await stop();
  close(null, undriven);
}
const besides = failed.length === 0 ? still(stillSteps.filter(({ beside }) => beside)) : [];
const tally = failed.length === 0 ? await tests(process.argv.slice(2), env) : null;
failed.push(...(await besides));
await stop();
close(tally, failed.length > 0 ? `${failed.join(', ')} failed` : '');
