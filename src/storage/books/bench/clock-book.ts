import type { RunningClock } from '../../../domain/bench/running-clock.js';
import { RunningClockRow } from '../../rows/bench/running-clock.row.js';
import type { Reading, Writing } from '../../session.js';
import { columnsOfWorkedOn, workedOnOf } from './worked-on-columns.js';

/** The clocks that run: at most one for each person. */
export const clockBook = {
  async of(reading: Reading, personId: string): Promise<RunningClock | undefined> {
    const row = await reading.manager.findOneBy(RunningClockRow, { id: personId });
    return row ? clockOf(row) : undefined;
  },

  /** All that run, the oldest first. */
  async all(reading: Reading): Promise<RunningClock[]> {
    return (await reading.manager.find(RunningClockRow, { order: { begun_at: 'ASC', id: 'ASC' } })).map(
      clockOf,
    );
  },

  async ofGarment(reading: Reading, garmentId: string): Promise<RunningClock[]> {
    return (await this.all(reading)).filter((clock) => clock.garmentId === garmentId);
  },

  /** Starts one; the last one must have been stopped. Its minutes can later be reversed, its start never undone. */
  async start(writing: Writing, clock: Omit<RunningClock, 'version'>): Promise<RunningClock> {
    return clockOf(
      await writing.insertForGood(RunningClockRow, {
        id: clock.personId,
        begun_at: clock.begunAt,
        ...columnsOfWorkedOn(clock),
      }),
    );
  },

  /** Says what it runs for, or why; when it began stays. */
  async correct(writing: Writing, clock: RunningClock, seen?: number): Promise<RunningClock> {
    return clockOf(await writing.update(RunningClockRow, clock.personId, columnsOfWorkedOn(clock), seen));
  },

  /** Takes the clock away; whoever stops it keeps its minutes in the same act. */
  async stop(writing: Writing, personId: string): Promise<RunningClock> {
    return clockOf(await writing.remove(RunningClockRow, personId));
  },
};

const clockOf = (row: RunningClockRow): RunningClock => ({
  personId: row.id,
  version: row.version,
  begunAt: row.begun_at,
  ...workedOnOf(row),
});
