import { Controller, Get, Param } from '@nestjs/common';
import { ReadSide } from '../../../storage/read-side.js';
import { answer, page, type Reply } from '../../../web/reply.js';
import { spendPage } from './spend.page.js';
import { spendOfCommission, together } from './spend-of-commission.js';

/** What a commission takes of the cloth room. */
@Controller()
export class SpendController {
  constructor(private readonly read: ReadSide) {}

  @Get('commissions/:id/materials')
  async show(@Param('id') id: string): Promise<Reply> {
    return page('cloth-room/spend', spendPage(await spendOfCommission(this.read, id)));
  }

  @Get('api/commissions/:id/materials')
  async sent(@Param('id') id: string): Promise<Reply> {
    const { garments, identity } = await spendOfCommission(this.read, id);
    const rows = garments.flatMap((garment) => garment.rows);
    return answer({ garments, together: together(rows, identity.currency) });
  }
}
