import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { garmentsToCharge } from '../../../storage/books/money-out/garments-to-charge.js';
import { moneyOutBook } from '../../../storage/books/money-out/money-out-book.js';
import { billSubject, paidOutBook } from '../../../storage/books/money-out/paid-out-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { typedKit } from '../../../web/fields/kits.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { billFormPage, billPage, payPage } from './bill.page.js';
import { gatherMoneyOut } from './gather-money-out.js';
import { markPaid, markUnpaid, payable, putDownBill, reverseBill } from './keep-money-out.js';
import { MoneyOutFields, PayFields, ReverseBillFields, spanOf, UnpayFields } from './money-out.form.js';
import { billUrl, moneyOutPage } from './money-out.page.js';

/** Money out that is not cloth, and what is owed. */
@Controller('papers/money-out')
export class MoneyOutController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async all(@Query('from') from = '', @Query('to') to = '', @Query('after') after = ''): Promise<Reply> {
    const today = await this.today();
    const told = await gatherMoneyOut(this.read, today, spanOf(from, to, today), after);
    return page('paper-room/money-out/list', moneyOutPage(told));
  }

  @Get('new')
  async form(@Query('garment') garment = '', @Query('kind') kind = ''): Promise<Reply> {
    const { template, words } = await this.drawn(freshForm('', { kind, garment, on: await this.today() }));
    return page(template, words);
  }

  @Post()
  add(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(MoneyOutFields(typedKit(await this.identity())), typed);
        const { value, act } = await putDownBill(this.unit, visit, said, await this.today());
        return seeOther(billUrl(value.id), act);
      },
      (form) => this.drawn(form),
    );
  }

  @Get('pay')
  async payForm(@Query('about') about = ''): Promise<Reply> {
    const { template, words } = await this.paying(about, freshForm('', { paidOn: await this.today() }));
    return page(template, words);
  }

  @Post('pay')
  pay(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { act } = await markPaid(this.unit, visit, parseForm(PayFields(await this.today()), typed));
        return seeOther('/papers/money-out', act);
      },
      (form) => this.paying(typed.about ?? '', form),
    );
  }

  @Post('unpay')
  async unpay(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { about } = parseForm(UnpayFields, typedOf(body));
    const { act } = await markUnpaid(this.unit, visit, about);
    return seeOther('/papers/money-out', act);
  }

  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const { template, words } = await this.bill(id, freshForm(''));
    return page(template, words);
  }

  @Post(':id/reverse')
  reverse(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { reason } = parseForm(ReverseBillFields, typed);
        const { act } = await reverseBill(this.unit, visit, id, reason);
        return seeOther(billUrl(id), act);
      },
      (form) => this.bill(id, form),
    );
  }

  private async identity() {
    return (await studioBook.the(this.read)).identity;
  }

  private async today() {
    return todayIn(this.clock, (await this.identity()).zone);
  }

  private async drawn(form: FormModel) {
    return billFormPage(form, await garmentsToCharge(this.read), await this.identity());
  }

  private async bill(id: string, form: FormModel) {
    const bill = await moneyOutBook.one(this.read, id);
    const about = billSubject(id);
    const told = {
      paid: (await paidOutBook.of(this.read, [about])).get(about),
      reversal: (await moneyOutBook.reversalsOf(this.read, [id])).get(id),
    };
    return billPage(form, bill, told, await this.identity());
  }

  private async paying(about: string, form: FormModel) {
    const owed = await payable(this.read, about);
    const paid = (await paidOutBook.of(this.read, [about])).get(about);
    return payPage(form, about, owed, paid, await this.identity());
  }
}
