import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import { Conflict } from '../../../domain/kernel/errors.js';
import { PdfPrinter } from '../../../printing/browser/pdf-printer.js';
import { Stationery } from '../../../printing/papers/stationery.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { markBook } from '../../../storage/books/house/mark-book.js';
import { clientAccountBook } from '../../../storage/books/papers/client-account-book.js';
import { SENT_HOW } from '../../../storage/books/papers/sent-book.js';
import { reminderBook } from '../../../storage/books/payments/reminder-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { Overtaken, printThenKeep } from '../../../storage/issuing/print-then-keep.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Reading, Visit } from '../../../storage/session.js';
import { type Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { line, oneOf } from '../../../web/fields/fields.js';
import { keptSheet, marked } from '../../../web/papers/house-on-paper.js';
import { overdueOf, reminderLetter } from './letters.js';

/** A reminder that goes out, as people and programs say it. */
export const ReminderFields = z.strictObject({
  which: oneOf(['1', '2'], 'Say whether it is the first reminder or a second one.'),
  toWhom: line('Say to whom it goes.', 400),
  how: oneOf(SENT_HOW, 'Say how it goes.'),
});
type Said = z.output<typeof ReminderFields>;

/** Reminders: looked at as often as one likes, and kept as they go out. */
@Injectable()
export class Reminders {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly stationery: Stationery,
    private readonly printer: PdfPrinter,
  ) {}

  /** The letter as it would go out now. @throws Conflict when nothing is overdue */
  async preview(clientId: string, which: 1 | 2): Promise<Uint8Array> {
    return this.print(await this.ready(this.read, clientId, which));
  }

  /**
   * Prints a reminder of today and keeps its bytes, with when, to whom and how it goes.
   *
   * @throws Conflict when nothing is overdue
   */
  send(visit: Visit, clientId: string, { which, toWhom, how }: Said): Promise<Done<string>> {
    const place = which === '2' ? 2 : 1;
    return printThenKeep({
      ready: () => this.ready(this.read, clientId, place),
      print: (ready) => this.print(ready),
      keep: (ready, pdf) =>
        this.unit.write(visit, async (writing) => {
          const now = await this.ready(writing, clientId, place);
          const document = JSON.stringify(keptSheet(ready.letter));
          // Money may have come in while it was printed: nobody is reminded of what is paid.
          if (JSON.stringify(keptSheet(now.letter)) !== document) throw new Overtaken();
          const sha256 = createHash('sha256').update(pdf).digest('hex');
          const sent = {
            clientId,
            which: place,
            sentOn: ready.today,
            toWhom,
            how,
            document,
            sha256,
          } as const;
          const id = await reminderBook.add(writing, { ...sent, papers: ready.numbers }, pdf);
          const name = place === 2 ? 'a second reminder' : 'a reminder';
          writing.says(
            `Sent ${name} of ${ready.numbers.join(', ')} to ${toWhom}, ${how}`,
            `client/${clientId}`,
          );
          return id;
        }),
    });
  }

  private async ready(reading: Reading, clientId: string, which: 1 | 2) {
    const studio = await studioBook.the(reading);
    const client = await clientBook.one(reading, clientId);
    const { account } = await clientAccountBook.of(reading, clientId);
    const today = todayIn(this.clock, studio.identity.zone);
    const overdue = overdueOf(account, today);
    if (overdue.length === 0) throw new Conflict(NOT_OVERDUE, 'not-overdue');
    const mark = await markBook.maybe(reading);
    const letter = marked(reminderLetter(studio, client, overdue, { which, today }), mark);
    return { letter, studio, today, numbers: overdue.map(({ number }) => number) };
  }

  private print({ letter, studio }: Awaited<ReturnType<Reminders['ready']>>): Promise<Uint8Array> {
    const { html, sheet } = this.stationery.accountLetter(letter, studio.sheet);
    return this.printer.print(html, sheet);
  }
}

const NOT_OVERDUE = 'Nothing of this client is overdue, so there is nothing to remind of.';
