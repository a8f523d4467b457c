import { readFileSync } from 'node:fs';
import path from 'node:path';
import { inRoot } from '../run.mjs';

const nothing = () => ({ passed: 0, failed: 0, skipped: 0 });

/** A file that could not even be read has no tests to fail, so it counts as one failure itself. */
function tallyOf(file) {
  const tally = nothing();
  for (const test of file.assertionResults) {
    if (test.status === 'passed') tally.passed += 1;
    else if (test.status === 'failed') tally.failed += 1;
    else tally.skipped += 1;
  }
  if (file.status === 'failed' && tally.failed === 0) tally.failed = 1;
  return tally;
}

const add = (a, b) => {
  for (const key of Object.keys(b)) a[key] += b[key];
  return a;
};

/** Counts what vitest wrote down, in all and by the folder of `test` a file lies in. */
export function readTally(file) {
  const report = JSON.parse(readFileSync(file, 'utf8'));
  const folders = new Map();
  for (const each of report.testResults) {
    const [, folder] = path.relative(inRoot(), each.name).split(path.sep);
    folders.set(folder, add(folders.get(folder) ?? nothing(), tallyOf(each)));
  }
  const all = [...folders.values()].reduce(add, nothing());
  return { all, folders: [...folders].sort(([a], [b]) => a.localeCompare(b)) };
}

export const inWords = ({ passed, failed, skipped }) =>
  `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} left out` : ''}`;
