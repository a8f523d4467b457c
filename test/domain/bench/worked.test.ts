import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BenchEntry } from '../../../src/domain/bench/bench-entry.js';
import { checkWorked } from '../../../src/domain/bench/bench-entry.js';
import { minutesBetween } from '../../../src/domain/bench/running-clock.js';
import { standingEntries, workedMinutes } from '../../../src/domain/bench/worked.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import type { Mode, Stage } from '../../../src/domain/making/mode.js';
import type { Operation } from '../../../src/domain/making/operation.js';

const line = (id: string, stage: Stage, mode: Mode, minutes: number): Operation => ({
  id,
  kind: id,
  name: id,
  stage,
  mode,
  modeShares: [],
  basting: false,
  driver: 'once',
  quantity: new Decimal(1),
  fixedMinutes: new Decimal(minutes),
  minutesPerUnit: new Decimal(0),
  needsMinutes: false,
  fromStartingValues: false,
  shownToClient: false,
  clientWording: '',
});

const entry = (id: string, minutes: number, more: Partial<BenchEntry> = {}): BenchEntry => ({
  id,
  personId: 'p',
  personName: 'Odalys Fenwright',
  garmentName: 'Jacket',
  commissionId: 'c',
  garmentId: 'g',
  operationId: undefined,
  kind: '',
  name: '',
  stage: undefined,
  mode: undefined,
  away: undefined,
  minutes,
  on: '2026-03-02',
  begunAt: undefined,
  endedAt: undefined,
  cause: undefined,
  extraId: undefined,
  way: 'line',
  of: undefined,
  note: '',
  writtenAt: '2026-03-02T12:00:00Z',
  ...more,
});

const plan = [
  line('lapels', 'make', 'hand', 90),
  line('sleeves', 'make', 'hand', 60),
  line('cut', 'cut', 'bench', 45),
];

describe('minutes worked', () => {
  it('share a sitting on a whole stage over its operations by plan', () => {
    const worked = workedMinutes([entry('e', 100, { stage: 'make' })], plan);
    expect(worked.map(({ operationId, minutes }) => [operationId, minutes])).toEqual([
      ['lapels', 60],
      ['sleeves', 40],
    ]);
  });

  it('keep a stage nobody planned under its own name, as hand work', () => {
    expect(workedMinutes([entry('e', 15, { stage: 'finish' })], plan)).toMatchObject([
      { name: 'Finish', mode: 'hand', minutes: 15, operationId: undefined },
    ]);
  });

  it('leave out an entry that was taken back, and what took it back', () => {
    const entries = [
      entry('e', 100, { operationId: 'lapels' }),
      entry('r', -100, { operationId: 'lapels', of: 'e' }),
    ];
    expect(standingEntries(entries)).toEqual([]);
    expect(workedMinutes(entries, plan)).toEqual([]);
  });

  it('lose and gain no minute, whatever was written down', () => {
    const anEntry = fc.record({
      minutes: fc.integer({ min: 1, max: 1440 }),
      operationId: fc.constantFrom(undefined, 'lapels', 'sleeves', 'cut', 'gone'),
      stage: fc.constantFrom<Stage | undefined>(undefined, 'cut', 'make', 'finish'),
      mode: fc.constantFrom<Mode | undefined>(undefined, 'hand', 'machine'),
    });
    fc.assert(
      fc.property(fc.array(anEntry, { maxLength: 20 }), (said) => {
        const entries = said.map((one, index) => entry(`e${index}`, one.minutes, one));
        const total = workedMinutes(entries, plan).reduce((sum, { minutes }) => sum + minutes, 0);
        expect(total).toBe(said.reduce((sum, { minutes }) => sum + minutes, 0));
      }),
    );
  });
});

describe('a clock', () => {
  it('runs over midnight and over the change to summer time at its right length', () => {
    expect(minutesBetween('2026-03-28T23:30:00Z', '2026-03-29T01:30:00Z')).toBe(120);
    expect(minutesBetween('2026-03-02T10:00:00Z', '2026-03-02T10:01:29Z')).toBe(1);
    expect(minutesBetween('2026-03-02T10:00:00Z', '2026-03-02T10:01:30Z')).toBe(2);
    expect(minutesBetween('2026-03-02T10:00:00Z', '2026-03-02T09:00:00Z')).toBe(0);
  });
});

describe('minutes as they are said', () => {
  const said = { minutes: 90, on: '2026-03-02', garmentId: 'g' };
  it.each([
    [{ ...said, minutes: 0 }, 'minutes'],
    [{ ...said, minutes: 25 * 60 }, 'minutes'],
    [{ ...said, minutes: -5 }, 'minutes'],
    [{ ...said, on: '2026-03-03' }, 'on'],
    [{ ...said, garmentId: undefined }, 'garment'],
    [{ ...said, away: 'post' as const }, 'garment'],
  ])('are refused with the field named: %j', (wrong, field) => {
    expect(() => checkWorked(wrong, '2026-03-02')).toThrowError(
      expect.objectContaining({ fields: [expect.objectContaining({ field })] }),
    );
  });
  it('pass where they can be meant', () => expect(checkWorked(said, '2026-03-02')).toBe(said));
});
