import { Controller, Get, Param, Post, Query } from '@nestjs/common';
import { Clock } from '../../storage/clock.js';
import { historyBook } from '../../storage/history/history-book.js';
import { undoAct } from '../../storage/history/undo.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { answer, type Reply } from '../../web/reply.js';
import { Hand } from '../../web/visit.js';

/** The history for programs; undoing an act is an act itself. */
@Controller('api/history')
export class HistoryApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async list(
    @Query('about') about = '',
    @Query('before') before = '',
    @Query('limit') limit = '20',
  ): Promise<Reply> {
    const most = Math.min(100, Math.max(1, Number.parseInt(limit, 10) || 20));
    return answer(await historyBook.page(this.read, { about, before, limit: most, now: this.clock.now() }));
  }

  @Get(':act')
  async one(@Param('act') act: string): Promise<Reply> {
    return answer(await historyBook.one(this.read, act, this.clock.now()));
  }

  @Post(':act/undo')
  async undo(@Param('act') act: string, @Hand() visit: Visit): Promise<Reply> {
    const undone = await undoAct(this.unit, visit, act);
    return answer({ undone: act, act: undone.act });
  }
}
