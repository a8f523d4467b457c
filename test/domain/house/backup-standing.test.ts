import { expect, it } from 'vitest';
import { backupStanding, isBackupDue } from '../../../src/domain/house/backup/backup-standing.js';

const NOW = '2026-03-02T09:00:00.000Z';

it.each([
  [[], undefined, undefined, false],
  [['2026-03-02T09:00:00.000Z'], '2026-03-02T09:00:00.000Z', 0, false],
  [['2026-02-27T09:00:00.001Z'], '2026-02-27T09:00:00.001Z', 2, false],
  [['2026-02-27T09:00:00.000Z'], '2026-02-27T09:00:00.000Z', 3, true],
  // Not sorted, and one that a wrong clock dated years ahead.
  [
    ['2026-02-20T09:00:00.000Z', '2031-01-01T00:00:00.000Z', '2026-02-10T09:00:00.000Z'],
    '2026-02-20T09:00:00.000Z',
    10,
    true,
  ],
] as const)('backups of %j leave it standing at %s', (made, lastGood, wholeDays, isOld) => {
  expect(backupStanding(made, NOW)).toEqual({ lastGood, wholeDays, isOld });
});

it('a copy is due until one bears today’s date in the studio', () => {
  expect(isBackupDue([], NOW, 'Europe/Dublin')).toBe(true);
  expect(isBackupDue(['2026-03-01T23:59:00.000Z'], NOW, 'Europe/Dublin')).toBe(true);
  expect(isBackupDue(['2026-03-02T00:01:00.000Z'], NOW, 'Europe/Dublin')).toBe(false);
  // Auckland is 13 hours ahead in March: its 2 March began at 11:00 on 1 March in Greenwich.
  expect(isBackupDue(['2026-03-01T10:59:00.000Z'], NOW, 'Pacific/Auckland')).toBe(true);
  expect(isBackupDue(['2026-03-01T11:00:00.000Z'], NOW, 'Pacific/Auckland')).toBe(false);
  // A clock that once stood in the year 2031 does not put the copies off until then.
  expect(isBackupDue(['2031-01-01T00:00:00.000Z'], NOW, 'Europe/Dublin')).toBe(true);
});
