import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { isCalendarDate } from '../../domain/kernel/calendar-date.js';
import { Invalid, NotFound } from '../../domain/kernel/errors.js';
import { workingHour } from '../../domain/rates/rate-card.js';
import { type KeptRateCard, ratesBook } from '../../storage/books/rates-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../storage/clock.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { sentKit } from '../../web/fields/kits.js';
import { parse } from '../../web/forms/parse.js';
import { answer, created, type Reply } from '../../web/reply.js';
import { Hand } from '../../web/visit.js';
import { RatesSent } from './rates.sent.js';
import { setRates } from './set-rates.js';

/** Rates for programs. */
@Controller('api/rates')
export class RatesApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  /** Every card, the newest first. */
  @Get()
  async all(): Promise<Reply> {
    return answer({ items: (await ratesBook.all(this.read)).map(cardOut) });
  }

  /** The card that holds on a day, today when none is named. */
  @Get('in-force')
  async inForce(@Query('on') on?: string, @Query('person') person?: string): Promise<Reply> {
    const { identity } = await studioBook.the(this.read);
    if (on !== undefined && !isCalendarDate(on))
      throw Invalid.field('on', 'Write the date as year-month-day, such as 2026-03-02.');
    const card = await ratesBook.on(this.read, on ?? todayIn(this.clock, identity.zone), person);
    if (!card) throw new NotFound('rate on that day');
    return answer(cardOut(card));
  }

  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const card = (await ratesBook.all(this.read)).find((each) => each.id === id);
    if (!card) throw new NotFound('rate card');
    return answer(cardOut(card));
  }

  @Post()
  async add(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { identity } = await studioBook.the(this.read);
    const { from, change } = parse(RatesSent(sentKit(identity.currency)), body);
    const { value } = await setRates(this.unit, visit, from, change);
    return created(`/api/rates/${value.id}`, cardOut(value));
  }
}

const cardOut = (card: KeptRateCard) => ({ ...card, hour: workingHour(card) });
