import { IsNull } from 'typeorm';
import type { Instant } from '../../../domain/kernel/calendar-date.js';
import { CalendarKeyRow } from '../../rows/fitting/calendar-key.row.js';
import { keptIn, type Reading, type Writing } from '../../session.js';

/** A secret address of the calendar, without its secret. */
export type CalendarKey = {
  readonly id: string;
  readonly version: number;
  readonly name: string;
  readonly madeBy: string;
  readonly madeAt: Instant;
};

/** The calendar's secret addresses. Secrets are kept hashed only. */
export const calendarKeyBook = {
  /** Those that still open, oldest first. */
  async open(reading: Reading): Promise<CalendarKey[]> {
    const rows = await reading.manager.find(CalendarKeyRow, {
      where: { revoked_at: IsNull() },
      order: { id: 'ASC' },
    });
    return rows.map(keyOf);
  },

  /** The key of this secret, unless it was revoked. */
  async bySecret(reading: Reading, hash: string): Promise<CalendarKey | undefined> {
    return keptIn(reading, `calendar key ${hash}`, async () => {
      const row = await reading.manager.findOneBy(CalendarKeyRow, {
        secret_hash: hash,
        revoked_at: IsNull(),
      });
      return row ? keyOf(row) : undefined;
    });
  },

  async add(writing: Writing, name: string, secretHash: string): Promise<CalendarKey> {
    return keyOf(
      await writing.insertForGood(CalendarKeyRow, {
        id: writing.newId(),
        name,
        secret_hash: secretHash,
        made_by: writing.visit.who.name,
        made_at: writing.at,
        revoked_at: null,
      }),
    );
  },

  /** Nothing opens by it any more. */
  async revoke(writing: Writing, id: string): Promise<CalendarKey> {
    return keyOf(await writing.update(CalendarKeyRow, id, { revoked_at: writing.at }));
  },
};

const keyOf = (row: CalendarKeyRow): CalendarKey => ({
  id: row.id,
  version: row.version,
  name: row.name,
  madeBy: row.made_by,
  madeAt: row.made_at,
});
