// `npm run bench`: everything in one run, each figure beside a floor measured in the same minutes.
import { writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { fileURLToPath } from 'node:url';
import { measureEstimates } from './estimates.mjs';
import { measureFuzz } from './fuzz/measure-fuzz.mjs';
import { measureKills } from './killed/measure-kills.mjs';
import { load } from './measure.mjs';
import { measureMemory } from './memory.mjs';
import { measurePages } from './pages.mjs';
import { measurePaper } from './paper.mjs';
import { measureGate } from './papers/measure-gate.mjs';
import { measureIssuing } from './papers/measure-issuing.mjs';
import { measurePromises } from './papers/measure-promises.mjs';
import { measureStarts } from './starts.mjs';
import { measureStudy } from './study.mjs';
import { isKept, tableOf } from './table.mjs';
import { measureTwentyYears, measureYears } from './years/measure-years.mjs';

const parts = {
  pages: measurePages,
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

const rows = [];
const loads = [load()];
for (const [name, measure] of chosen) {
  process.stdout.write(`measuring ${name} …\n`);
  rows.push(...(await measure()));
  loads.push(load());
}

const table = tableOf(rows);
process.stdout.write(`\n${table}\n`);
if (asked.length === 0) {
  const [processor] = cpus();
  writeFileSync(
    fileURLToPath(new URL('RESULTS.md', import.meta.url)),
    `# What the last bench measured

- Written by \`npm run bench\` on ${new Date().toISOString().slice(0, 10)}; never by hand.
- Node ${process.version}, ${process.platform} ${process.arch}, ${cpus().length} cores (${processor?.model.trim() ?? 'unknown'}).
- Load of the machine (1 minute) before and after each part: ${loads.map((one) => one.toFixed(1)).join(', ')}. Times swing with it;
  a ratio compares two things measured in turn in the same minutes, so it holds.
- Times are milliseconds. A line is kept when its ratio, time or count is within its limit.

${table}
`,
  );
}
process.exitCode = rows.every(isKept) ? 0 : 1;
