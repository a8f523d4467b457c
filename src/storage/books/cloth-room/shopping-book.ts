import { ShoppingTickRow } from '../../rows/cloth-room/shopping-tick.row.js';
import type { Reading, Writing } from '../../session.js';

/** What was ticked on the shopping list, until its delivery is put down. */
export const shoppingBook = {
  async ticked(reading: Reading): Promise<Set<string>> {
    return new Set((await reading.manager.find(ShoppingTickRow)).map(({ id }) => id));
  },

  /** Ticks a planned line; a second tick changes nothing. */
  async tick(writing: Writing, lineId: string): Promise<void> {
    if (await writing.manager.findOneBy(ShoppingTickRow, { id: lineId })) return;
    await writing.insert(ShoppingTickRow, {
      id: lineId,
      ticked_at: writing.at,
      who: writing.visit.who.name,
    });
  },

  /** Takes a tick away, where there is one. */
  async untick(writing: Writing, lineId: string): Promise<void> {
    if (await writing.manager.findOneBy(ShoppingTickRow, { id: lineId }))
      await writing.remove(ShoppingTickRow, lineId);
  },
};
