import { In } from 'typeorm';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Conflict } from '../../../domain/kernel/errors.js';
import { inParts } from '../../in-parts.js';
import { PaidOutRow } from '../../rows/money-out/paid-out.row.js';
import type { Reading, Writing } from '../../session.js';

/** That a bill has been paid, on which day and how. */
export type PaidOut = { readonly about: string; readonly paidOn: CalendarDate; readonly how: string };

export const billSubject = (id: string): string => `money-out/${id}`;
export const purchaseSubject = (id: string): string => `purchase/${id}`;

/** Which bills are paid: of the cloth room's merchants, and of everything else. Whole bills only. */
export const paidOutBook = {
  /** @returns by subject, such as `purchase/0190…` */
  async of(reading: Reading, subjects: readonly string[]): Promise<ReadonlyMap<string, PaidOut>> {
    const found: PaidOut[] = [];
    for (const some of inParts(subjects, 500))
      found.push(...(await reading.manager.find(PaidOutRow, { where: { about: In(some) } })).map(paidOf));
    return new Map(found.map((one) => [one.about, one]));
  },

  /** @throws Conflict when it is paid already */
  async pay(writing: Writing, about: string, paidOn: CalendarDate, how: string): Promise<void> {
    if (await writing.manager.existsBy(PaidOutRow, { about }))
      throw new Conflict('This is marked as paid already.', 'paid-already');
    await writing.insert(PaidOutRow, { id: writing.newId(), about, paid_on: paidOn, how });
  },

  /** Takes the mark back: it is owed again. @throws Conflict when it is not paid */
  async takeBack(writing: Writing, about: string): Promise<void> {
    const row = await writing.manager.findOneBy(PaidOutRow, { about });
    if (!row) throw new Conflict('This is not marked as paid.', 'not-paid');
    await writing.remove(PaidOutRow, row.id);
  },
};

const paidOf = (row: PaidOutRow): PaidOut => ({ about: row.about, paidOn: row.paid_on, how: row.how });
