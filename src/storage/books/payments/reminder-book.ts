import type { CalendarDate, Instant } from '../../../domain/kernel/calendar-date.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { ReminderRow } from '../../rows/payments/reminder.row.js';
import { ReminderPdfRow } from '../../rows/payments/reminder-pdf.row.js';
import type { Reading, Writing } from '../../session.js';
import type { SentHow } from '../papers/sent-book.js';

/** A reminder as it went out. */
export type Reminder = {
  readonly id: string;
  readonly clientId: string;
  readonly which: 1 | 2;
  readonly sentOn: CalendarDate;
  readonly toWhom: string;
  readonly how: SentHow;
  /** The numbers of the papers it names. */
  readonly papers: readonly string[];
  /** Its words, JSON. */
  readonly document: string;
  readonly sha256: string;
  readonly writtenAt: Instant;
};

/** The book of reminders. They are added and read; nothing here changes one. */
export const reminderBook = {
  /** A client's reminders, oldest first. */
  async of(reading: Reading, clientId: string): Promise<Reminder[]> {
    const rows = await reading.manager.find(ReminderRow, {
      where: { client_id: clientId },
      order: { id: 'ASC' },
    });
    return rows.map(reminderOf);
  },

  /** One reminder of a client with the bytes that went out. @throws NotFound */
  async pdf(reading: Reading, clientId: string, id: string): Promise<{ reminder: Reminder; bytes: Buffer }> {
    const row = await reading.manager.findOneBy(ReminderRow, { id, client_id: clientId });
    const pdf = row && (await reading.manager.findOneBy(ReminderPdfRow, { id }));
    if (!row || !pdf) throw new NotFound('reminder');
    return { reminder: reminderOf(row), bytes: Buffer.from(pdf.bytes, 'base64') };
  },

  /** Keeps a reminder and its bytes for good. */
  async add(
    writing: Writing,
    reminder: Omit<Reminder, 'id' | 'writtenAt'>,
    pdf: Uint8Array,
  ): Promise<string> {
    const { id } = await writing.insertForGood(ReminderRow, {
      id: writing.newId(),
      client_id: reminder.clientId,
      which: reminder.which,
      sent_on: reminder.sentOn,
      to_whom: reminder.toWhom,
      how: reminder.how,
      papers: JSON.stringify(reminder.papers),
      document: reminder.document,
      sha256: reminder.sha256,
      written_at: writing.at,
    });
    // Not through the act's history: it can never be undone, the history holds its SHA-256, and would double its size.
    await writing.manager.insert(ReminderPdfRow, {
      id,
      version: 1,
      bytes: Buffer.from(pdf).toString('base64'),
    });
    return id;
  },
};

const reminderOf = (row: ReminderRow): Reminder => ({
  id: row.id,
  clientId: row.client_id,
  which: row.which === 2 ? 2 : 1,
  sentOn: row.sent_on,
  toWhom: row.to_whom,
  how: row.how as SentHow,
  papers: JSON.parse(row.papers) as string[],
  document: row.document,
  sha256: row.sha256,
  writtenAt: row.written_at,
});
