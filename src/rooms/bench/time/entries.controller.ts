import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { isCause } from '../../../domain/costing/cause-rules.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import { benchBook } from '../../../storage/books/bench/bench-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { submit } from '../../../web/forms/form.js';
import { parse } from '../../../web/forms/parse.js';
import { type Typed, typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import { ODD, type TimeSaid } from './add-time.js';
import { reverseTime } from './correct-time.js';
import { entryPage } from './entry.page.js';
import { entryUrl } from './entry-rows.js';
import { typedWork } from './read-split.js';
import { ReasonFields, typedDay, typedMinutes } from './time.form.js';

/** Each entry of time, taken back and written anew. */
@Controller('bench/entries')
export class EntriesController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const { template, words } = await entryPage(this.read, id);
    return page(template, words);
  }

  @Post(':id/reversal')
  reverse(@Param('id') id: string, @Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { reason } = parse(ReasonFields, { reason: typed.reason ?? '' });
        return seeOther(entryUrl(id), (await reverseTime(this.unit, visit, id, reason)).act);
      },
      (form) => entryPage(this.read, id, { which: 'reversal', form }),
    );
  }

  @Post(':id/anew')
  anew(@Param('id') id: string, @Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { reason } = parse(ReasonFields, { reason: typed.reason ?? '' });
        const instead = await this.instead(id, typed);
        const { value, act } = await reverseTime(this.unit, visit, id, reason, instead);
        return seeOther(entryUrl(value?.id ?? id), act);
      },
      (form) => entryPage(this.read, id, { which: 'anew', form }),
    );
  }

  /** What stands instead; where neither time nor day changed, from when to when it was stays. */
  private async instead(id: string, typed: Typed): Promise<TimeSaid> {
    const before = await benchBook.one(this.read, id);
    const studio = await studioBook.the(this.read);
    const minutes = typedMinutes(typed.minutes ?? '', studio, 'minutes', 'How long was it?');
    if (minutes === undefined) throw Invalid.field('minutes', 'How long was it?');
    const on = typedDay(typed.on);
    const isSameTime = minutes === before.minutes && on === before.on;
    const work = typed.what?.trim()
      ? await typedWork(this.read, typed.what, 'what', before.garmentId)
      : { sameAs: before };
    const cause = typed.cause ?? '';
    return {
      ...work,
      ...(isCause(cause) ? { cause } : {}),
      minutes,
      on,
      ...(isSameTime ? { begunAt: before.begunAt, endedAt: before.endedAt } : {}),
      evenIfOdd: typed[ODD] === 'yes',
    };
  }
}
