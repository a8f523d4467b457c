import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { Conflict } from '../../../../domain/kernel/errors.js';
import { PdfPrinter } from '../../../../printing/browser/pdf-printer.js';
import { Stationery } from '../../../../printing/papers/stationery.js';
import { clientBook } from '../../../../storage/books/client-book.js';
import { markBook } from '../../../../storage/books/house/mark-book.js';
import { paymentBook } from '../../../../storage/books/papers/payment-book.js';
import { receiptBook } from '../../../../storage/books/payments/receipt-book.js';
import { seriesBook } from '../../../../storage/books/series-book.js';
import { studioBook } from '../../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../../storage/clock.js';
import { IssuingTurn } from '../../../../storage/issuing/issuing-turn.js';
import { foreseeNumber, lockSeries } from '../../../../storage/issuing/next-number.js';
import { Overtaken, printThenKeep } from '../../../../storage/issuing/print-then-keep.js';
import { ReadSide } from '../../../../storage/read-side.js';
import type { Reading, Visit } from '../../../../storage/session.js';
import { type Done, UnitOfWork } from '../../../../storage/unit-of-work.js';
import { keptSheet } from '../../../../web/papers/house-on-paper.js';
import { paymentSubject } from '../take-payment.js';
import { wentTo } from '../went-to.js';
import { receiptLetter } from './receipt-letter.js';

/** A receipt is no invoice: it is counted in a series of its own. */
const SERIES = 'R-{year}-{000}';

/** Writes receipts. Printing never happens inside a write, and a number is taken only with its receipt in hand. */
@Injectable()
export class Receipts {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly stationery: Stationery,
    private readonly printer: PdfPrinter,
    private readonly turn: IssuingTurn,
  ) {}

  /**
   * Writes the receipt of a payment: one, and never again.
   *
   * @throws Conflict when there is one already, or the payment does not stand
   */
  write(visit: Visit, paymentId: string): Promise<Done<string>> {
    return this.turn.run('receipt', () =>
      printThenKeep({
        ready: () => this.ready(this.read, paymentId),
        print: ({ letter, studio }) => {
          const paper = this.stationery.accountLetter(letter, studio.sheet);
          return this.printer.print(paper.html, paper.sheet);
        },
        keep: (ready, pdf) =>
          this.unit.write(visit, async (writing) => {
            await lockSeries(writing, ready.next.key);
            const now = await this.ready(writing, paymentId);
            // Counted again inside the act: whatever moved meanwhile would make this print untrue.
            const document = JSON.stringify(keptSheet(ready.letter));
            if (JSON.stringify(keptSheet(now.letter)) !== document) throw new Overtaken();
            await seriesBook.take(writing, ready.next.key, SERIES);
            const id = await receiptBook.add(
              writing,
              {
                paymentId,
                number: ready.next.number,
                issuedOn: ready.on,
                document,
                sha256: createHash('sha256').update(pdf).digest('hex'),
              },
              pdf,
            );
            const { clientName } = ready.payment;
            writing.says(`Wrote receipt ${ready.next.number} for ${clientName}`, paymentSubject(paymentId));
            return id;
          }),
      }),
    );
  }

  private async ready(reading: Reading, paymentId: string) {
    const payment = await paymentBook.one(reading, paymentId);
    if (payment.kind !== 'payment' || payment.reversedBy)
      throw new Conflict('A receipt is written for a payment that stands.', 'not-standing');
    if (await receiptBook.ofPayment(reading, paymentId))
      throw new Conflict('There is a receipt for this payment already.', 'receipt-there');
    const studio = await studioBook.the(reading);
    const client = await clientBook.one(reading, payment.clientId);
    const mark = await markBook.maybe(reading);
    const on = todayIn(this.clock, studio.identity.zone);
    const next = await foreseeNumber(reading, { name: 'receipt', pattern: SERIES }, on, (number) =>
      receiptBook.isNumberTaken(reading, number),
    );
    const went = (await wentTo(reading, payment)).filter(({ paperId }) => paperId !== undefined);
    const letter = receiptLetter({ studio, client, mark, payment, went, number: next.number, on });
    return { payment, studio, next, on, letter };
  }
}
