import { Decimal } from '../../../domain/kernel/decimal.js';
import { PUBLISHED_RATIOS, type ThreadRatio } from '../../../domain/stock/need/thread-ratios.js';
import { ThreadRatioRow } from '../../rows/cloth-room/thread-ratio.row.js';
import type { Reading, Writing } from '../../session.js';

/** Thread ratios: the published families, and what the studio measured itself. */
export const threadBook = {
  async own(reading: Reading): Promise<ThreadRatio[]> {
    const rows = await reading.manager.find(ThreadRatioRow, { order: { id: 'ASC' } });
    return rows.map(({ id, ratio, source }) => ({
      stitch: id,
      ratio: new Decimal(ratio),
      family: 'own',
      source,
    }));
  },

  /** All of them, the studio's own first. */
  async all(reading: Reading): Promise<ThreadRatio[]> {
    return [...(await this.own(reading)), ...PUBLISHED_RATIOS];
  },

  /** Sets the studio's own ratio for a stitch type. */
  async set(writing: Writing, stitch: string, ratio: Decimal, source: string): Promise<void> {
    const words = { ratio: ratio.toFixed(), source };
    if (await writing.manager.findOneBy(ThreadRatioRow, { id: stitch }))
      await writing.update(ThreadRatioRow, stitch, words);
    else await writing.insert(ThreadRatioRow, { id: stitch, ...words });
  },

  /** Takes the studio's own ratio away; the published ones stay. @throws NotFound when there is none */
  async drop(writing: Writing, stitch: string): Promise<void> {
    await writing.remove(ThreadRatioRow, stitch);
  },
};
