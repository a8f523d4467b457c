import { Controller, Get, Query } from '@nestjs/common';
import { csvOf } from '../../../printing/exchange/csv.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { Describe } from '../../../web/api/describe.js';
import { answer, file, page, type Reply } from '../../../web/reply.js';
import { decimalSignOf } from '../../../web/words/numeral.js';
import { gatherYear } from './gather-year.js';
import { yearPage } from './year.page.js';
import { yearLines } from './year-lines.js';

/** A year of the studio in figures. */
@Controller('rates/year')
export class YearController {
  constructor(
    private readonly read: ReadSide,
    private readonly clock: Clock,
  ) {}

  @Get()
  async year(@Query('year') asked?: string): Promise<Reply> {
    const { identity } = await studioBook.the(this.read);
    const present = todayIn(this.clock, identity.zone).slice(0, 4);
    return page('rates/year/year', yearPage(await gatherYear(this.read, this.clock, asked), present));
  }

  @Get('table.csv')
  async table(@Query('year') asked?: string): Promise<Reply> {
    const year = await gatherYear(this.read, this.clock, asked);
    const decimalSign = decimalSignOf(year.identity.locale);
    const text = csvOf(
      [
        { heading: 'Part', cell: ({ part }) => part },
        { heading: 'What', cell: ({ what }) => what },
        { heading: 'Currency', cell: ({ amount }) => amount?.currency },
        { heading: 'Amount', cell: ({ amount }) => amount },
        { heading: 'Hours', cell: ({ hours }) => hours },
        { heading: 'Note', cell: ({ note }) => note },
      ],
      yearLines(year),
      { decimalSign, separator: decimalSign === ',' ? ';' : ',' },
    );
    return file(text, 'text/csv; charset=utf-8', `year ${year.year}.csv`);
  }
}

/** The same for programs. */
@Controller('api/rates/year')
export class YearApi {
  constructor(
    private readonly read: ReadSide,
    private readonly clock: Clock,
  ) {}

  @Get()
  @Describe({
    summary: 'A calendar year in figures: money, hours, and what the garments closed in it earned',
    description: '`year` in four figures; this year when left out, up to today.',
  })
  async year(@Query('year') asked?: string): Promise<Reply> {
    const {
      identity: _,
      typeNames,
      overhead,
      hours,
      garments,
      ...year
    } = await gatherYear(this.read, this.clock, asked);
    return answer({
      ...year,
      net: year.invoiced.minus(year.credited),
      ownErrorCost: year.ownErrorCost ?? null,
      hours,
      overhead: overhead
        ? { absorbed: overhead.absorbed, incurred: overhead.incurred, difference: overhead.difference }
        : null,
      garments: {
        ...garments,
        byType: garments.byType.map((one) => ({ ...one, name: typeNames.get(one.typeId) ?? one.typeId })),
      },
    });
  }
}
