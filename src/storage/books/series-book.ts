import { SeriesRow } from '../rows/house/series.row.js';
import type { Reading, Writing } from '../session.js';

/** Where each number series stands. The number is taken inside the act that uses it, so none is burnt or doubled. */
export const seriesBook = {
  /** The last number given out; 0 when none. */
  async last(reading: Reading, series: string): Promise<number> {
    return (await reading.manager.findOneBy(SeriesRow, { id: series }))?.last ?? 0;
  },

  /**
   * Takes the next number.
   *
   * @param series e.g. `client`, or `quote/2026` where the count begins anew each year
   */
  async take(writing: Writing, series: string, pattern = ''): Promise<number> {
    return this.takeMany(writing, series, 1, pattern);
  },

  /** Takes several numbers that follow each other. @returns the first of them */
  async takeMany(writing: Writing, series: string, many: number, pattern = ''): Promise<number> {
    const row = await writing.manager.findOneBy(SeriesRow, { id: series });
    const next = (row?.last ?? 0) + many;
    // Not through the act's history: undoing an act must never give its number out again.
    if (row)
      await writing.manager.update(SeriesRow, { id: series }, { last: next, version: row.version + 1 });
    else await writing.manager.insert(SeriesRow, { id: series, version: 1, pattern, last: next });
    return next - many + 1;
  },
};
