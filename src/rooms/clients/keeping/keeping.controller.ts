import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { keepingBook } from '../../../storage/books/house/keeping-book.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit, versionSeen } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { KeepingFields } from '../held/held.form.js';
import { KEEPING, keepingPage, typedKeeping } from './keeping.page.js';
import { keepLonger, timeToAsk } from './time-to-ask.js';

/** How long the house keeps what it holds on clients, and whom to ask about today. */
@Controller('house/keeping')
export class KeepingController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async form(): Promise<Reply> {
    const rule = await keepingBook.rule(this.read);
    const { template, words } = await this.drawn(freshForm('', typedKeeping(rule), rule.version));
    return page(template, words);
  }

  @Post()
  settle(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const rule = parseForm(KeepingFields, typed);
        const { act } = await this.unit.write(visit, async (writing) => {
          await keepingBook.settle(writing, rule, versionSeen(typed));
          writing.says('Settled how long clients are kept', 'house');
        });
        return seeOther(KEEPING, act);
      },
      (form) => this.drawn(form),
      async () => typedKeeping(await keepingBook.rule(this.read)),
    );
  }

  @Post(':client')
  async longer(@Param('client') client: string, @Hand() visit: Visit): Promise<Reply> {
    const { act } = await keepLonger(this.unit, this.clock, visit, client);
    return seeOther(KEEPING, act);
  }

  private async drawn(form: ReturnType<typeof freshForm>) {
    const { away, photosOver } = await timeToAsk(this.read, this.clock);
    return keepingPage(away, photosOver, form);
  }
}
