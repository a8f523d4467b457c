// `npm run bench`: everything in one run, each figure beside a floor measured in the same minutes.
import { measureEstimates } from './estimates.mjs';
import { measureFuzz } from './fuzz/measure-fuzz.mjs';
import { measureKills } from './killed/measure-kills.mjs';
import { measureLights } from './lights/measure-lights.mjs';
import { load } from './measure.mjs';
import { measurePages } from './pages.mjs';
import { measurePaper } from './paper.mjs';
import { measureGate } from './papers/measure-gate.mjs';
import { measureIssuing } from './papers/measure-issuing.mjs';
import { measurePromises } from './papers/measure-promises.mjs';
import { measureStarts } from './starts.mjs';
import { measureStudy } from './study.mjs';
import { isKept, keepResult, tableOf } from './table.mjs';
import { measureMemory } from './years/measure-memory.mjs';
import { measureTwentyYears, measureYears } from './years/measure-years.mjs';

const parts = {
  pages: measurePages,
  lights: measureLights,
  paper: measurePaper,
  starts: measureStarts,
  estimates: measureEstimates,
  years: measureYears,
  twenty: measureTwentyYears,
  memory: measureMemory,
  study: measureStudy,
  killed: measureKills,
  promises: measurePromises,
  gate: measureGate,
  issuing: measureIssuing,
  fuzz: measureFuzz,
};
const asked = process.argv.slice(2);
const chosen = Object.entries(parts).filter(([name]) => asked.length === 0 || asked.includes(name));

const unknown = asked.filter((name) => !(name in parts));
if (unknown.length > 0) {
  process.stderr.write(
    `There is no part ${unknown.join(', ')}. There are: ${Object.keys(parts).join(', ')}.\n`,
  );
  process.exit(1);
}

const kept = [];
for (const [name, measure] of chosen) {
  process.stdout.write(`measuring ${name} …\n`);
  const [from, before] = [performance.now(), load()];
  const rows = await measure();
  kept.push(...rows.map(isKept));
  const table = tableOf(rows);
  process.stdout.write(`\n${table}\n`);
  const took = Math.round((performance.now() - from) / 1000);
  // Each part by itself: one that was measured in a quiet hour stays when another is measured again.
  keepResult(name, Object.keys(parts), {
    table,
    said: `${new Date().toISOString().slice(0, 10)}, ${took} s; load of the machine (1 minute) ${before.toFixed(1)} before, ${load().toFixed(1)} after`,
  });
}
process.exitCode = kept.every(Boolean) ? 0 : 1;
