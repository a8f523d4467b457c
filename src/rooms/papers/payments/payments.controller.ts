import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { NotFound } from '../../../domain/kernel/errors.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { paymentBook } from '../../../storage/books/papers/payment-book.js';
import { receiptBook } from '../../../storage/books/payments/receipt-book.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { typedKit } from '../../../web/fields/kits.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { type Typed, typedOf } from '../../../web/forms/typed.js';
import { file, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import {
  asksAbout,
  besideParts,
  MoveFields,
  PaymentFields,
  partsIn,
  RefundFields,
  ReverseFields,
} from './payment.form.js';
import {
  freshPayment,
  freshRefund,
  movePage,
  paymentPage,
  paymentsPage,
  paymentUrl,
  refundPage,
  takePage,
} from './payment.page.js';
import { PaymentDesk } from './payment-desk.js';
import { Receipts } from './receipts/write-receipt.js';
import { reversePayment } from './reverse-payment.js';
import { giveBack, movePayment, takePayment } from './take-payment.js';

/** Money in and out: taken, given back, put to papers, reversed. */
@Controller('papers/payments')
export class PaymentsController {
  constructor(
    private readonly desk: PaymentDesk,
    private readonly unit: UnitOfWork,
    private readonly receipts: Receipts,
  ) {}

  @Get()
  async list(@Query('after') after = ''): Promise<Reply> {
    const { identity } = await this.desk.house();
    const found = await paymentBook.list(this.desk.read, { after });
    return page('paper-room/payments/list', paymentsPage(found, after, identity));
  }

  @Get('new')
  async takeForm(@Query('client') client = '', @Query('amount') amount = ''): Promise<Reply> {
    const { today } = await this.desk.house();
    const { template, words } = await this.taking(client, freshPayment(today, amount), {});
    return page(template, words);
  }

  @Post('new')
  take(@Query('client') clientId = '', @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { identity, today } = await this.desk.house();
        const { account } = await this.desk.account(clientId);
        const asks = asksAbout(account.papers, typed);
        const { commission, on, amount, how, note, ...rest } = parseForm(
          PaymentFields(typedKit(identity), today, asks),
          typed,
        );
        const parts = partsIn(rest);
        const said = { clientId, commissionId: commission, on, amount, how, note };
        const { value, act } = await besideParts(parts, () => takePayment(this.unit, visit, said, parts));
        return seeOther(paymentUrl(value), act);
      },
      (form) => this.taking(clientId, form, typed),
    );
  }

  @Get('refund')
  async refundForm(@Query('client') client = ''): Promise<Reply> {
    const { identity, today } = await this.desk.house();
    const of = await this.desk.account(client);
    const { template, words } = refundPage(freshRefund(of, today, identity), of, identity);
    return page(template, words);
  }

  @Post('refund')
  async refund(@Query('client') clientId = '', @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const { identity, today } = await this.desk.house();
    return submit(
      typed,
      async () => {
        const said = parseForm(RefundFields(typedKit(identity), today), typed);
        const { value, act } = await giveBack(this.unit, visit, { clientId, ...said });
        return seeOther(paymentUrl(value), act);
      },
      async (form) => refundPage(form, await this.desk.account(clientId), identity),
    );
  }

  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const { template, words } = paymentPage(await this.desk.told(id));
    return page(template, words);
  }

  @Post(':id/reversal')
  async reverse(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const { today } = await this.desk.house();
    return submit(
      typed,
      async () => {
        const said = parseForm(ReverseFields(today), typed);
        const { act } = await reversePayment(this.unit, visit, id, said);
        return seeOther(paymentUrl(id), act);
      },
      async (form) => paymentPage(await this.desk.told(id), form),
    );
  }

  @Get(':id/move')
  async moveForm(@Param('id') id: string): Promise<Reply> {
    const { identity } = await this.desk.house();
    const { payment, papers, now } = await this.desk.moving(id);
    const { template, words } = movePage(freshForm('', now), payment, papers, identity);
    return page(template, words);
  }

  @Post(':id/move')
  async move(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const { identity } = await this.desk.house();
    return submit(
      typed,
      async () => {
        const { papers } = await this.desk.moving(id);
        const parts = partsIn(parseForm(MoveFields(typedKit(identity), papers), typed)) ?? [];
        const { act } = await besideParts(parts, () => movePayment(this.unit, visit, id, parts));
        return seeOther(paymentUrl(id), act);
      },
      async (form) => {
        const { payment, papers } = await this.desk.moving(id);
        return movePage(form, payment, papers, identity);
      },
    );
  }

  @Post(':id/receipt')
  async receipt(@Param('id') id: string, @Hand() visit: Visit): Promise<Reply> {
    const { act } = await this.receipts.write(visit, id);
    return seeOther(paymentUrl(id), act);
  }

  @Get(':id/receipt.pdf')
  async receiptPdf(@Param('id') id: string): Promise<Reply> {
    const receipt = await receiptBook.ofPayment(this.desk.read, id);
    if (!receipt) throw new NotFound('receipt');
    const name = `Receipt ${receipt.number.replace(/[/\\]/g, '-')}.pdf`;
    return file(await receiptBook.pdf(this.desk.read, receipt.id), 'application/pdf', name, true);
  }

  private async taking(clientId: string, form: FormModel, typed: Typed) {
    const { identity } = await this.desk.house();
    const of = await this.desk.account(clientId);
    const commissions = await this.desk.commissionsOf(clientId);
    return takePage(form, of, asksAbout(of.account.papers, typed), commissions, identity);
  }
}
