import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { NotFound } from '../../../domain/kernel/errors.js';
import { type KeptPayment, paymentBook } from '../../../storage/books/papers/payment-book.js';
import { receiptBook } from '../../../storage/books/payments/receipt-book.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { pageSize } from '../../../web/api/page-size.js';
import { sentKit } from '../../../web/fields/kits.js';
import { parse } from '../../../web/forms/parse.js';
import { answer, created, file, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { ReverseFields, SentMove, SentPayment } from './payment.form.js';
import { PaymentDesk } from './payment-desk.js';
import { Receipts } from './receipts/write-receipt.js';
import { reversePayment } from './reverse-payment.js';
import { giveBack, movePayment, takePayment } from './take-payment.js';
import { wentTo } from './went-to.js';

const inJson = (payment: KeptPayment) => ({
  id: payment.id,
  kind: payment.kind,
  clientId: payment.clientId,
  clientName: payment.clientName,
  commissionId: payment.commissionId ?? null,
  on: payment.on,
  amount: payment.amount,
  how: payment.how,
  note: payment.note,
  of: payment.of ?? null,
  reversedBy: payment.reversedBy ?? null,
  writtenAt: payment.writtenAt,
  who: payment.who,
});

type Sent = readonly { readonly paperId: string; readonly amount: KeptPayment['amount'] }[];
const partsOf = (parts: Sent) => parts.map(({ paperId, amount }) => ({ to: paperId, amount }));

/** Payments for programs. */
@Controller('api/payments')
export class PaymentsApi {
  constructor(
    private readonly desk: PaymentDesk,
    private readonly unit: UnitOfWork,
    private readonly receipts: Receipts,
  ) {}

  @Get()
  @Describe({ summary: 'Payments, refunds and reversals, newest first, of everybody or of one client.' })
  async list(
    @Query('clientId') clientId = '',
    @Query('after') after = '',
    @Query('limit') limit = '20',
  ): Promise<Reply> {
    const most = pageSize(limit, 20);
    const asked = { clientId: clientId || undefined, after, limit: most };
    const { items, next } = await paymentBook.list(this.desk.read, asked);
    return answer({ items: items.map(inJson), next: next ?? null });
  }

  @Post()
  @Describe({
    summary: 'Takes a payment, or gives money back.',
    description:
      'Without `parts` the papers due first are settled first; with an empty list all of it is held for the client. A refund is taken from what is held, and is refused when less is held.',
    examples: {
      payment: { clientId: '0190…', on: '2026-03-02', amount: '120.00', how: 'bank transfer' },
      refund: { kind: 'refund', clientId: '0190…', amount: '20.00', how: 'bank transfer' },
    },
  })
  async take(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { identity, today } = await this.desk.house();
    const { kind, parts, ...words } = parse(SentPayment(sentKit(identity.currency), today), body);
    const { value } =
      kind === 'refund'
        ? await giveBack(this.unit, visit, words)
        : await takePayment(this.unit, visit, words, parts && partsOf(parts));
    return created(`/api/payments/${value}`, await this.whole(value));
  }

  @Get(':id')
  @Describe({ summary: 'One payment, with what it went to.' })
  async one(@Param('id') id: string): Promise<Reply> {
    return answer(await this.whole(id));
  }

  @Post(':id/reversal')
  @Describe({
    summary: 'Takes a payment or refund back by another entry; its papers are open again.',
    examples: { bounced: { reason: 'returned by the bank', on: '2026-03-02' } },
  })
  async reverse(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { today } = await this.desk.house();
    const { value } = await reversePayment(this.unit, visit, id, parse(ReverseFields(today), body));
    return created(`/api/payments/${value}`, await this.whole(value));
  }

  @Post(':id/allocations')
  @Describe({
    summary: 'Puts a payment’s money to these papers instead; what is over is held for the client.',
    examples: { move: { parts: [{ paperId: '0190…', amount: '80.00' }] } },
  })
  async move(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { identity } = await this.desk.house();
    const { parts } = parse(SentMove(sentKit(identity.currency)), body);
    await movePayment(this.unit, visit, id, partsOf(parts));
    return answer(await this.whole(id));
  }

  @Post(':id/receipt')
  @Describe({
    summary: 'Writes the receipt of a payment, once: numbered, printed, and kept with its SHA-256.',
  })
  async receipt(@Param('id') id: string, @Hand() visit: Visit): Promise<Reply> {
    await this.receipts.write(visit, id);
    return created(`/api/payments/${id}/receipt.pdf`, await this.whole(id));
  }

  @Get(':id/receipt.pdf')
  @Describe({ summary: 'The receipt’s bytes as they were written.' })
  async receiptPdf(@Param('id') id: string): Promise<Reply> {
    const receipt = await receiptBook.ofPayment(this.desk.read, id);
    if (!receipt) throw new NotFound('receipt');
    return file(
      await receiptBook.pdf(this.desk.read, receipt.id),
      'application/pdf',
      `${receipt.number}.pdf`,
      true,
    );
  }

  private async whole(id: string) {
    const payment = await paymentBook.one(this.desk.read, id);
    const receipt = await receiptBook.ofPayment(this.desk.read, id);
    return {
      ...inJson(payment),
      wentTo: (await wentTo(this.desk.read, payment)).map(({ paperId, paymentId, number, amount }) => ({
        paperId: paperId ?? null,
        paymentId: paymentId ?? null,
        number: number || null,
        amount,
      })),
      receipt: receipt
        ? {
            number: receipt.number,
            issuedOn: receipt.issuedOn,
            sha256: receipt.sha256,
            stands: payment.reversedBy === undefined,
          }
        : null,
    };
  }
}
