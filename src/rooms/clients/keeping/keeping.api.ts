import { Controller, Get, Param, Post } from '@nestjs/common';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { answer, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { keepLonger, timeToAsk } from './time-to-ask.js';

/** Whom to ask about, for programs. */
@Controller('api/house/keeping')
export class KeepingApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  @Describe({ summary: 'Clients not here for longer than the house keeps what it holds, longest away first' })
  async list(): Promise<Reply> {
    const { rule, away, photosOver } = await timeToAsk(this.read, this.clock);
    return answer({ years: rule.years, childYears: rule.childYears, longAway: away, photosOver });
  }

  @Post(':client')
  @Describe({ summary: 'Keep what is held on a client a year longer' })
  async longer(@Param('client') client: string, @Hand() visit: Visit): Promise<Reply> {
    await keepLonger(this.unit, this.clock, visit, client);
    return this.list();
  }
}
