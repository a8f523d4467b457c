import type { CalendarDate, Instant } from '../../../domain/kernel/calendar-date.js';
import { PaperSentRow } from '../../rows/papers/paper-sent.row.js';
import type { Reading, Writing } from '../../session.js';

/** How a paper goes out. */
export const SENT_HOW = ['by mail', 'by post', 'by hand'] as const;
export type SentHow = (typeof SENT_HOW)[number];

/** That a paper was sent: when, to whom, how, and which bytes. */
export type SentPaper = {
  readonly id: string;
  readonly paperId: string;
  readonly sentOn: CalendarDate;
  readonly toWhom: string;
  readonly how: SentHow;
  readonly sha256: string;
  readonly writtenAt: Instant;
};

/** The book of what was sent. Lines are added, never changed. */
export const sentBook = {
  /** Oldest first. */
  async of(reading: Reading, paperId: string): Promise<SentPaper[]> {
    const rows = await reading.manager.find(PaperSentRow, {
      where: { paper_id: paperId },
      order: { id: 'ASC' },
    });
    return rows.map((row) => ({
      id: row.id,
      paperId: row.paper_id,
      sentOn: row.sent_on,
      toWhom: row.to_whom,
      how: row.how as SentHow,
      sha256: row.sha256,
      writtenAt: row.written_at,
    }));
  },

  async add(writing: Writing, sent: Omit<SentPaper, 'id' | 'writtenAt'>): Promise<string> {
    const id = writing.newId();
    await writing.insertForGood(PaperSentRow, {
      id,
      paper_id: sent.paperId,
      sent_on: sent.sentOn,
      to_whom: sent.toWhom,
      how: sent.how,
      sha256: sent.sha256,
      written_at: writing.at,
    });
    return id;
  },
};
