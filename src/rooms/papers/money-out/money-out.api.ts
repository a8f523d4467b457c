import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { owedInAll } from '../../../domain/money-out/supplier-credit.js';
import { moneyOutBook } from '../../../storage/books/money-out/money-out-book.js';
import { billSubject, paidOutBook } from '../../../storage/books/money-out/paid-out-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { pageSize } from '../../../web/api/page-size.js';
import { sentKit } from '../../../web/fields/kits.js';
import { parse } from '../../../web/forms/parse.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { gatherMoneyOut } from './gather-money-out.js';
import { markPaid, markUnpaid, putDownBill, reverseBill } from './keep-money-out.js';
import { MoneyOutFields, PayFields, ReverseBillFields, spanOf, UnpayFields } from './money-out.form.js';

const GARMENT = '0190d5a2-7c1e-7b44-9f0a-3d1f5f0f2a11';

/** Money out that is not cloth, for programs. */
@Controller('api/money-out')
export class MoneyOutApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  @Describe({
    summary: 'Bills that are not cloth, newest first, and their sums by kind for a span',
    description:
      'Amounts are without tax that comes back. `from` and `to` bound the sums (this year when left out), not the list.',
  })
  async list(
    @Query('from') from = '',
    @Query('to') to = '',
    @Query('after') after = '',
    @Query('limit') limit = '30',
  ): Promise<Reply> {
    const today = await this.today();
    const most = pageSize(limit, 30);
    const told = await gatherMoneyOut(this.read, today, spanOf(from, to, today), after, most);
    return answer({
      items: told.list.items.map((bill) => ({
        ...bill,
        paidOn: told.paid.get(billSubject(bill.id))?.paidOn ?? null,
        isReversed: told.reversed.has(bill.id),
      })),
      next: told.list.next ?? null,
      from: told.span[0],
      to: told.span[1],
      byKind: told.totals,
    });
  }

  @Get('owed')
  @Describe({
    summary: 'What is owed to merchants, to outworkers, and for other bills',
    description:
      'What was sent back to a merchant is a credit: `sent-back/ID`, below nought. `byMerchant` is what is owed to each, credits taken off.',
  })
  async owed(): Promise<Reply> {
    const today = await this.today();
    const { merchants, outworkers, bills } = await gatherMoneyOut(this.read, today, [today, today]);
    return answer({ merchants, byMerchant: owedInAll(merchants), outworkers, bills });
  }

  @Get('overhead')
  @Describe({
    summary: 'Overhead incurred this year against what the work absorbed',
    description:
      'difference = absorbed − incurred = spending + volume; `factor` is what the rates would have had to be multiplied by. Null while there are no rates.',
  })
  async overhead(): Promise<Reply> {
    const today = await this.today();
    const { year } = await gatherMoneyOut(this.read, today, [today, today]);
    return answer(year ? { ...year, byPool: Object.fromEntries(year.byPool) } : null);
  }

  @Post()
  @Describe({
    summary: 'Put down a bill that is not cloth',
    description:
      'Rent, power, tools and insurance are overhead; an outworker always names a garment; courier, fares and other are a garment’s own expense where one is named. Without `paidOn` it is owed.',
    examples: {
      rent: {
        kind: 'rent',
        on: '2026-03-01',
        amount: '420.00',
        payee: 'The bookbinder',
        paidOn: '2026-03-01',
      },
      courier: {
        kind: 'courier',
        on: '2026-03-02',
        amount: '11.50',
        tax: '2.30',
        payee: 'River Carriers',
        garment: GARMENT,
      },
    },
  })
  async add(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { identity } = await studioBook.the(this.read);
    const said = parse(MoneyOutFields(sentKit(identity.currency)), body);
    const { value } = await putDownBill(this.unit, visit, said, await this.today());
    return created(`/api/money-out/${value.id}`, await this.told(value.id));
  }

  @Post('paid')
  @Describe({
    summary:
      'Mark a bill, a delivery of cloth or outwork that is back as paid, or a merchant’s credit as settled',
    description:
      '`about` is `money-out/ID`, `purchase/ID`, `sent-back/ID` or `outwork/ID`; outwork becomes a bill of its garment.',
    examples: { delivery: { about: `purchase/${GARMENT}`, paidOn: '2026-03-06', how: 'transfer' } },
  })
  async pay(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { value } = await markPaid(this.unit, visit, parse(PayFields(await this.today()), body));
    return answer({ about: value, ...(await paidOutBook.of(this.read, [value])).get(value) });
  }

  @Post('unpaid')
  @Describe({
    summary: 'Take a mark of payment back',
    examples: { back: { about: `purchase/${GARMENT}` } },
  })
  async unpay(@Body({ schema: UnpayFields }) body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { about } = parse(UnpayFields, body);
    await markUnpaid(this.unit, visit, about);
    return answer({ about, paidOn: null });
  }

  @Get(':id')
  @Describe({ summary: 'One bill' })
  async one(@Param('id') id: string): Promise<Reply> {
    return answer(await this.told(id));
  }

  @Post(':id/reversal')
  @Describe({
    summary: 'Take a bill back by another of the same amount below nought',
    examples: { twice: { reason: 'put down twice' } },
  })
  async reverse(
    @Param('id') id: string,
    @Body({ schema: ReverseBillFields }) body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { value } = await reverseBill(this.unit, visit, id, parse(ReverseBillFields, body).reason);
    return created(`/api/money-out/${value.id}`, await this.told(value.id));
  }

  private async today() {
    return todayIn(this.clock, (await studioBook.the(this.read)).identity.zone);
  }

  private async told(id: string) {
    const about = billSubject(id);
    return {
      ...(await moneyOutBook.one(this.read, id)),
      paidOn: (await paidOutBook.of(this.read, [about])).get(about)?.paidOn ?? null,
      reversedBy: (await moneyOutBook.reversalsOf(this.read, [id])).get(id)?.id ?? null,
    };
  }
}
