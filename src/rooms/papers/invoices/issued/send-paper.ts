import { z } from 'zod';
import { Invalid } from '../../../../domain/kernel/errors.js';
import { invoiceBook } from '../../../../storage/books/papers/invoice-book.js';
import { SENT_HOW, sentBook } from '../../../../storage/books/papers/sent-book.js';
import { studioBook } from '../../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../../storage/clock.js';
import type { Visit } from '../../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../../storage/unit-of-work.js';
import { date, line, oneOf } from '../../../../web/fields/fields.js';
import { invoiceSubject } from '../drafts/begin-invoice.js';

/** That a paper was sent, as people and programs say it. */
export const SentFields = z.strictObject({
  sentOn: date('Give the day it went out.'),
  toWhom: line('Say to whom it went.', 400),
  how: oneOf(SENT_HOW, 'Say how it went.'),
});

/** Writes down that a paper was sent, with the hash of the bytes that are kept of it. */
export const sendPaper = (
  unit: UnitOfWork,
  clock: Clock,
  visit: Visit,
  paperId: string,
  said: z.output<typeof SentFields>,
): Promise<Done<string>> =>
  unit.write(visit, async (writing) => {
    const paper = await invoiceBook.one(writing, paperId);
    const { identity } = await studioBook.the(writing);
    if (said.sentOn > todayIn(clock, identity.zone))
      throw Invalid.field('sentOn', 'This day is still to come.');
    if (said.sentOn < paper.issuedOn) throw Invalid.field('sentOn', 'It was not issued yet on that day.');
    const id = await sentBook.add(writing, { paperId, sha256: paper.sha256, ...said });
    writing.says(
      `Sent ${paper.number} to ${said.toWhom}, ${said.how}`,
      invoiceSubject(paper.commissionId, paperId),
    );
    return id;
  });
