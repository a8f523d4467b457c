import { Body, Controller, Delete, Get, Param, Post } from '@nestjs/common';
import { calendarKeyBook } from '../../../storage/books/fitting/calendar-key-book.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { parse } from '../../../web/forms/parse.js';
import { answer, createdSecret, file, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { calendarFeed } from './feed.js';
import { KeyFields, makeKey, revokeKey } from './keys.js';

const KEY = { telephone: { name: 'Telephone' } };

/** The calendar and its secret addresses for programs. */
@Controller('api/house/calendar')
export class CalendarApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  @Describe({ summary: 'Fittings and promised days as an iCalendar file (RFC 5545)' })
  async feed(): Promise<Reply> {
    return file(await calendarFeed(this.read, this.clock), 'text/calendar; charset=utf-8', 'workroom.ics');
  }

  @Get('addresses')
  @Describe({ summary: 'The secret addresses that open, without their secrets' })
  async keys(): Promise<Reply> {
    return answer({ items: await calendarKeyBook.open(this.read) });
  }

  @Post('addresses')
  @Describe({ summary: 'Makes a secret address; its path is answered this once', examples: KEY })
  async make(@Body({ schema: KeyFields }) body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const key = await makeKey(this.unit, visit, parse(KeyFields, body).name);
    return createdSecret(`/api/house/calendar/addresses/${key.id}`, key);
  }

  @Delete('addresses/:key')
  @Describe({ summary: 'Revokes a secret address' })
  async revoke(@Param('key') id: string, @Hand() visit: Visit): Promise<Reply> {
    return answer((await revokeKey(this.unit, visit, id)).value);
  }
}
