import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { Conflict } from '../../domain/kernel/errors.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { Clock } from '../../storage/clock.js';
import { historyBook } from '../../storage/history/history-book.js';
import { undoAct } from '../../storage/history/undo.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { AlreadyDone, UnitOfWork } from '../../storage/unit-of-work.js';
import { typedOf } from '../../web/forms/typed.js';
import { ownPath } from '../../web/own-path.js';
import { page, type Reply, seeOther } from '../../web/reply.js';
import { Hand } from '../../web/visit.js';
import { historyPage, notUndonePage } from './history.page.js';

/** What was done, by whom, and taking it back. */
@Controller('history')
export class HistoryController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async list(@Query('about') about = '', @Query('before') before = ''): Promise<Reply> {
    const found = await historyBook.page(this.read, { about, before, now: this.clock.now() });
    return page('history/list', historyPage(found, { about, before }, await studioBook.maybe(this.read)));
  }

  @Post(':act/undo')
  async undo(@Param('act') act: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const home = ownPath(typedOf(body).back);
    try {
      return seeOther(home, (await undoAct(this.unit, visit, act)).act);
    } catch (error) {
      if (!(error instanceof Conflict) || error instanceof AlreadyDone) throw error;
      const refused = await historyBook.one(this.read, act, this.clock.now());
      return page('history/not-undone', notUndonePage(refused, error, home), 409);
    }
  }
}
