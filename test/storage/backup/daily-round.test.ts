import { mkdirSync, mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { Backups } from '../../../src/storage/backup/backups.js';
import { DailyRound } from '../../../src/storage/backup/daily-round.js';
import { openForWriting } from '../../../src/storage/connection/data-source.js';
import { StillClock } from '../../support/still-clock.js';

const DAY = 1440;
let [root, folder] = ['', ''];
let clock: StillClock;
let [backups, round] = [] as unknown as [Backups, DailyRound];
let failures: unknown[];

beforeEach(async () => {
  root = mkdtempSync(join(tmpdir(), 'bastings-round-'));
  folder = join(root, 'backups');
  clock = new StillClock();
  const home = { kind: 'sqlite', file: join(root, 'bastings.sqlite') } as const;
  await (await openForWriting(home)).destroy();
  backups = new Backups(home, folder, clock);
  failures = [];
  round = new DailyRound(
    backups,
    clock,
    async () => 'Europe/Dublin',
    (error) => failures.push(error),
  );
});
afterEach(async () => {
  await round.end();
  rmSync(root, { recursive: true, force: true });
});

it('makes one copy a day, keeps what the rule keeps, and leaves what was made by hand', async () => {
  const byHand = await backups.make();
  // What a process that was ended left behind, long ago and just now; and a file that is no business of ours.
  writeFileSync(join(folder, 'bastings-2026-01-01T00-00-00Z.sqlite.unfinished'), 'half');
  utimesSync(join(folder, 'bastings-2026-01-01T00-00-00Z.sqlite.unfinished'), 1, 1);
  writeFileSync(join(folder, 'letter.txt'), 'Dear Corvin');
  for (let day = 0; day < 12; day += 1) {
    await round.look();
    clock.forward(60);
    await round.look();
    clock.forward(DAY - 60);
  }
  expect(failures).toEqual([]);
  const daily = (await backups.list()).filter(({ daily }) => daily).map(({ name }) => name.slice(9, 19));
  // 2 to 13 March 2026: seven days back from the 13th, and Sunday the 8th is among them.
  expect(daily).toEqual([
    '2026-03-13',
    '2026-03-12',
    '2026-03-11',
    '2026-03-10',
    '2026-03-09',
    '2026-03-08',
    '2026-03-07',
  ]);
  expect(readdirSync(folder)).toContain(byHand.name);
  expect(readdirSync(folder)).toContain('letter.txt');
  expect(readdirSync(folder).filter((name) => name.endsWith('.unfinished'))).toEqual([]);
});

it('goes by itself once begun, and stops', async () => {
  round.begin(1, 1_000_000);
  for (let wait = 0; wait < 200 && (await backups.list()).length === 0; wait += 1)
    await new Promise((resolve) => setTimeout(resolve, 20));
  await round.end();
  expect((await backups.list()).map(({ daily }) => daily)).toEqual([true]);
});

it('says in words that its folder cannot be written to, takes nothing away, and tries again', async () => {
  await round.look();
  clock.forward(DAY);
  const aside = join(root, 'aside');
  // A file in the folder’s place: even the administrator of the machine cannot write into it.
  const there = readdirSync(folder);
  rmSync(folder, { recursive: true });
  writeFileSync(folder, '');
  await round.look();
  expect(failures).toHaveLength(1);
  expect((await backups.standing()).trouble).toEqual({
    at: clock.now(),
    text: expect.stringMatching(/^The folder .+ cannot be written to, so no backup was made\./),
  });
  expect(there).toHaveLength(1);
  rmSync(folder);
  mkdirSync(aside);
  await round.look();
  expect(failures).toHaveLength(1);
  expect((await backups.standing()).trouble).toBeUndefined();
  expect((await backups.standing()).lastGood).toBe(clock.now());
});

it('minds no clock that jumps: neither ahead, nor back', async () => {
  await round.look();
  clock.forward(400 * DAY);
  await round.look();
  clock.forward(-400 * DAY + 60);
  await round.look();
  // Today has its copy already; the one that is dated ahead is not called the last good one.
  expect((await backups.list()).filter(({ daily }) => daily)).toHaveLength(2);
  expect((await backups.standing()).lastGood).toBe('2026-03-02T09:00:00.000Z');
  clock.forward(DAY);
  await round.look();
  expect((await backups.standing()).lastGood).toBe(clock.now());
  expect(failures).toEqual([]);
});
