import { describe, expect, it } from 'vitest';
import type { BenchEntry } from '../../../src/domain/bench/bench-entry.js';
import { minutesBetween } from '../../../src/domain/bench/running-clock.js';
import {
  leftRunning,
  mustHaveBegun,
  overlapped,
  stoppedAnswers,
  tappedAt,
  usualSitting,
} from '../../../src/domain/bench/sitting.js';
import { instantAt } from '../../../src/domain/bench/wall-clock.js';

const ZONE = 'Europe/Dublin';
const span = (begun: string, ended: string) => ({ begunAt: `${begun}:00.000Z`, endedAt: `${ended}:00.000Z` });
const entry = (id: string, begun: string, ended: string, of?: string): BenchEntry =>
  ({ id, of, ...(of ? {} : span(begun, ended)) }) as BenchEntry;

describe('sittings that overlap', () => {
  const nine = entry('a', '2026-03-02T09:00', '2026-03-02T10:00');
  it('run at once for a minute or more', () => {
    const ids = (begun: string, ended: string) => overlapped([nine], span(begun, ended)).map(({ id }) => id);
    expect(ids('2026-03-02T09:59', '2026-03-02T11:00')).toEqual(['a']);
    expect(ids('2026-03-02T10:00', '2026-03-02T11:00')).toEqual([]);
    expect(ids('2026-03-02T08:00', '2026-03-02T12:00')).toEqual(['a']);
    expect(ids('2026-03-02T08:00', '2026-03-02T09:00')).toEqual([]);
  });

  it('do not, once one was taken back, or where nobody said from when to when', () => {
    const back = entry('b', '', '', 'a');
    expect(overlapped([nine, back], span('2026-03-02T09:00', '2026-03-02T10:00'))).toEqual([]);
    expect(
      overlapped([{ ...nine, begunAt: undefined }], span('2026-03-02T09:00', '2026-03-02T10:00')),
    ).toEqual([]);
  });
});

describe('a clock left running', () => {
  it.each([
    ['2026-03-02T09:00', '2026-03-02T13:00', 0, undefined],
    ['2026-03-02T09:00', '2026-03-02T13:01', 0, 'long-for-a-first'],
    ['2026-03-02T09:00', '2026-03-02T11:01', 120, 'longer-than-ever'],
    ['2026-03-02T09:00', '2026-03-02T11:00', 120, undefined],
    ['2026-03-02T09:00', '2026-03-02T09:40', 10, undefined],
    ['2026-03-02T23:50', '2026-03-03T00:10', 600, 'over-midnight'],
    // Midnight is the workroom's: 23:30 UTC is half past midnight in Dublin in summer.
    ['2026-07-01T22:30', '2026-07-01T23:30', 600, 'over-midnight'],
  ])('%s to %s with %i at the longest: %s', (begun, ended, longest, why) => {
    expect(leftRunning(span(begun, ended), longest, ZONE)).toBe(why);
  });

  it('is asked about with the answers that can be meant', () => {
    const night = span('2026-03-02T16:00', '2026-03-03T08:00');
    expect(stoppedAnswers(night, 75, ZONE)).toEqual([
      { is: 'now', at: '2026-03-03T08:00:00.000Z' },
      { is: 'usual', at: '2026-03-02T17:15:00.000Z' },
      { is: 'evening', at: '2026-03-02T18:00:00.000Z' },
    ]);
    const late = span('2026-03-02T19:00', '2026-03-02T23:30');
    expect(stoppedAnswers(late, undefined, ZONE).map(({ is }) => is)).toEqual(['now']);
  });

  it('usually takes the middle of past sittings, or what the plan says', () => {
    expect(usualSitting([90, 30, 60], 45)).toBe(60);
    expect(usualSitting([90, 30], 45)).toBe(30);
    expect(usualSitting([], 45)).toBe(45);
    expect(usualSitting([], 0)).toBeUndefined();
  });
});

describe('the clock on the wall', () => {
  it('skips an hour in spring and repeats one in autumn; a sitting keeps its right length', () => {
    // Summer time in Ireland, 2026: from 29 March 01:00 UTC to 25 October 01:00 UTC (Directive 2000/84/EC, last Sundays).
    expect(instantAt('2026-03-29', '00:30', ZONE)).toBe('2026-03-29T00:30:00.000Z');
    expect(instantAt('2026-03-29', '02:30', ZONE)).toBe('2026-03-29T01:30:00.000Z');
    expect(instantAt('2026-03-29', '01:30', ZONE)).toBe('2026-03-29T01:30:00.000Z');
    expect(instantAt('2026-10-25', '01:30', ZONE)).toBe('2026-10-25T00:30:00.000Z');
    const sitting = (on: string) =>
      minutesBetween(instantAt(on, '00:30', ZONE), instantAt(on, '02:30', ZONE));
    expect([sitting('2026-03-29'), sitting('2026-10-25'), sitting('2026-03-30')]).toEqual([60, 180, 120]);
  });
});

describe('a tap', () => {
  const now = '2026-03-10T09:00:00.000Z';
  it('counts from when it was made, up to seven days back', () => {
    expect(tappedAt(undefined, now)).toBe(now);
    expect(tappedAt('2026-03-03T09:00:00.000Z', now)).toBe('2026-03-03T09:00:00.000Z');
    expect(() => tappedAt('2026-03-03T08:58:00.000Z', now)).toThrow('seven days');
  });

  it('is not of the future, but for the moment by which two clocks differ', () => {
    expect(tappedAt('2026-03-10T09:00:40.000Z', now)).toBe(now);
    expect(() => tappedAt('2026-03-10T09:02:00.000Z', now)).toThrow('future');
  });

  it('stops no clock before it was started', () => {
    expect(() => mustHaveBegun({ begunAt: now }, '2026-03-10T08:59:59.000Z')).toThrow(
      'before it was started',
    );
    expect(() => mustHaveBegun({ begunAt: now }, now)).not.toThrow();
  });
});
