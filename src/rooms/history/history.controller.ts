import { Body, Controller, Param, Post } from '@nestjs/common';
import { undoAct } from '../../storage/history/undo.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { typedOf } from '../../web/forms/typed.js';
import { type Reply, seeOther } from '../../web/reply.js';
import { Hand } from '../../web/visit.js';

/** What was done, by whom, and taking it back. */
@Controller('history')
export class HistoryController {
  constructor(private readonly unit: UnitOfWork) {}

  @Post(':act/undo')
  async undo(@Param('act') act: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { back } = typedOf(body);
    const done = await undoAct(this.unit, visit, act);
    return seeOther(back && /^\/(?![/\\])/.test(back) ? back : '/', done.act);
  }
}
