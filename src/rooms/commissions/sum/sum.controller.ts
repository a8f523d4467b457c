import { Controller, Get, Param, Query } from '@nestjs/common';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { page, part, type Reply } from '../../../web/reply.js';
import { budgetPage } from './budget.page.js';
import { sumPanel } from './sum.page.js';

/** The sum of a garment, and the other way round from a budget. */
@Controller('commissions/:commission/garments/:garment')
export class SumController {
  constructor(
    private readonly read: ReadSide,
    private readonly clock: Clock,
  ) {}

  @Get('sum')
  async sum(@Param('garment') garment: string): Promise<Reply> {
    return part('commissions/sum', await sumPanel(this.read, this.clock, garment));
  }

  @Get('budget')
  async budget(@Param('garment') garment: string, @Query('amount') amount = ''): Promise<Reply> {
    return page('commissions/sum-budget', await budgetPage(this.read, this.clock, garment, amount));
  }
}
