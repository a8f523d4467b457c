import { Controller, Get, Query } from '@nestjs/common';
import { z } from 'zod';
import { Invalid } from '../../../domain/kernel/errors.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { Describe } from '../../../web/api/describe.js';
import { date, oneOf } from '../../../web/fields/fields.js';
import { freshForm } from '../../../web/forms/form.js';
import { parse } from '../../../web/forms/parse.js';
import { file, page, type Reply } from '../../../web/reply.js';
import { decimalSignOf } from '../../../web/words/numeral.js';
import { papersCrumb } from '../payments/payment.page.js';
import { papersTable, paymentsTable } from './tables.js';

const Asked = z.strictObject({
  table: oneOf(['papers', 'payments'], 'Papers or payments?').default('papers'),
  from: date('From which day?'),
  to: date('Until which day?'),
  decimal: z.enum(['', '.', ',']).default(''),
});

/** Writes papers or payments of a period as a table. */
const written = async (read: ReadSide, query: unknown): Promise<Reply> => {
  const { table, from, to, decimal } = parse(Asked, query);
  if (from > to) throw Invalid.field('to', 'The last day is before the first.');
  const { identity } = await studioBook.the(read);
  const decimalSign = decimal || decimalSignOf(identity.locale);
  const manner = { decimalSign, separator: decimalSign === ',' ? ';' : ',' } as const;
  const text = await (table === 'papers' ? papersTable : paymentsTable)(read, { from, to }, manner);
  return file(text, 'text/csv; charset=utf-8', `${table} ${from} to ${to}.csv`);
};

/** Tables for the bookkeeper. */
@Controller('papers/bookkeeping')
export class BookkeepingController {
  constructor(
    private readonly read: ReadSide,
    private readonly clock: Clock,
  ) {}

  @Get()
  async choose(): Promise<Reply> {
    const { identity } = await studioBook.the(this.read);
    const today = todayIn(this.clock, identity.zone);
    return page('paper-room/bookkeeping/choose', {
      title: 'Tables for the bookkeeper',
      room: 'papers',
      crumbs: [papersCrumb],
      period: freshForm('/papers/bookkeeping/table.csv', {
        table: 'papers',
        from: `${today.slice(0, 4)}-01-01`,
        to: today,
      }).values,
    });
  }

  @Get('table.csv')
  table(@Query() query: unknown): Promise<Reply> {
    return written(this.read, query);
  }
}

/** The same for programs. */
@Controller('api/papers/bookkeeping.csv')
export class BookkeepingApi {
  constructor(private readonly read: ReadSide) {}

  @Get()
  @Describe({
    summary: 'Papers or payments of a period as CSV, credit notes and money that left below nought.',
    description:
      '`table` is `papers` or `payments`; `from` and `to` are days, both included; `decimal` is `.` or `,`.',
  })
  table(@Query() query: unknown): Promise<Reply> {
    return written(this.read, query);
  }
}
