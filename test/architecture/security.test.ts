import { existsSync } from 'node:fs';
import path from 'node:path';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { read } from './tree.js';

/* How the program stands to OWASP ASVS 5.0.0, number by number. */

/** Chapters and numbers of each level. */
const COUNTS: Readonly<Record<string, readonly [chapters: number, rows: number]>> = {
  '1': [15, 70],
  '2': [17, 183],
};
const STATES = ['met', 'not applicable', 'not yet'];

type Row = { requirement: string; state: string; how: string; test: string };
const rowsOf = (level: string): Row[] =>
  parse(read(`data/security/asvs-level-${level}.csv`), { columns: true }) as Row[];

/** Of level 1, by their numbers alone. @see owasp.org, Application Security Verification Standard 5.0.0 */
const FIRST_LEVEL = `
  V1.2.1 V1.2.2 V1.2.3 V1.2.4 V1.2.5 V1.3.1 V1.3.2 V1.5.1 V2.1.1 V2.2.1
  V2.2.2 V2.3.1 V3.2.1 V3.2.2 V3.3.1 V3.4.1 V3.4.2 V3.5.1 V3.5.2 V3.5.3
  V4.1.1 V4.4.1 V5.2.1 V5.2.2 V5.3.1 V5.3.2 V6.1.1 V6.2.1 V6.2.2 V6.2.3
  V6.2.4 V6.2.5 V6.2.6 V6.2.7 V6.2.8 V6.3.1 V6.3.2 V6.4.1 V6.4.2 V7.2.1
  V7.2.2 V7.2.3 V7.2.4 V7.4.1 V7.4.2 V8.1.1 V8.2.1 V8.2.2 V8.3.1 V9.1.1
  V9.1.2 V9.1.3 V9.2.1 V10.4.1 V10.4.2 V10.4.3 V10.4.4 V10.4.5 V11.3.1 V11.3.2
  V11.4.1 V12.1.1 V12.2.1 V12.2.2 V13.4.1 V14.2.1 V14.3.1 V15.1.1 V15.2.1 V15.3.1
`
  .trim()
  .split(/\s+/);

describe.each(['1', '2'])('the table of level %s', (level) => {
  const rows = rowsOf(level);

  it('holds every number once', () => {
    const numbers = rows.map(({ requirement }) => requirement);
    const chapters = new Set(numbers.map((number) => number.split('.')[0]));
    expect(new Set(numbers).size).toBe(numbers.length);
    expect([chapters.size, numbers.length]).toEqual(COUNTS[level]);
    expect(numbers.filter((number) => !/^V\d{1,2}\.\d{1,2}\.\d{1,2}$/.test(number))).toEqual([]);
    if (level === '1') expect(numbers).toEqual(FIRST_LEVEL);
  });

  it('says of each how it stands and why', () => {
    for (const { requirement, state, how } of rows)
      expect([requirement, STATES.includes(state), how !== '']).toEqual([requirement, true, true]);
  });

  it('names a test for each that is met, and the test is there', () => {
    for (const { requirement, state, test } of rows) {
      if (state === 'met')
        expect([requirement, /^test\/.+\.test\.ts$/.test(test)]).toEqual([requirement, true]);
      if (test !== '') expect([requirement, existsSync(path.resolve(test))]).toEqual([requirement, true]);
    }
  });
});
