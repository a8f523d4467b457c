import { Controller, Get } from '@nestjs/common';
import { Clock } from '../../storage/clock.js';
import { ReadSide } from '../../storage/read-side.js';
import { page, type Reply } from '../../web/reply.js';
import { Hand, type SignedIn } from '../../web/visit.js';
import { daySheet } from './day-sheet.page.js';

/** The Bench: the day sheet. */
@Controller()
export class BenchController {
  constructor(
    private readonly read: ReadSide,
    private readonly clock: Clock,
  ) {}

  @Get()
  async today(@Hand() hand: SignedIn): Promise<Reply> {
    return page('bench/day-sheet', await daySheet(this.read, this.clock, hand));
  }
}
