import { Controller, Get, Param } from '@nestjs/common';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { file, type Reply } from '../../../web/reply.js';
import { Open } from '../../../web/visit.js';
import { calendarFeed } from './feed.js';
import { keyOfFile } from './keys.js';

/** The calendar behind its secret address; calendars cannot sign in, so the address is the key. */
@Controller('calendar')
@Open()
export class FeedController {
  constructor(
    private readonly read: ReadSide,
    private readonly clock: Clock,
  ) {}

  @Get(':file')
  async feed(@Param('file') name: string): Promise<Reply> {
    await keyOfFile(this.read, name);
    return file(
      await calendarFeed(this.read, this.clock),
      'text/calendar; charset=utf-8',
      'workroom.ics',
      true,
    );
  }
}
