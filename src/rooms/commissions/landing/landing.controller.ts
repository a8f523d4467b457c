import { Controller, Get, Param } from '@nestjs/common';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { commissionUrl, garmentUrl } from '../commission.page.js';
import { garmentIn } from '../garments/change-garment.js';
import { commissionLandingPage } from './commission-landing.page.js';
import { commissionLandingTold } from './gather-commission.js';
import { landingTold } from './gather-landing.js';
import { landingPage } from './landing.page.js';

/** Where a garment and a commission will land. */
@Controller('commissions/:commission')
export class LandingController {
  constructor(
    private readonly read: ReadSide,
    private readonly clock: Clock,
  ) {}

  @Get('garments/:garment/landing')
  async garment(@Param('commission') commission: string, @Param('garment') garment: string): Promise<Reply> {
    await garmentIn(this.read, commission, garment);
    const told = await landingTold(this.read, this.clock, garment);
    return told
      ? page('commissions/landing/page', landingPage(told))
      : seeOther(garmentUrl(commission, garment));
  }

  @Get('landing')
  async commission(@Param('commission') commission: string): Promise<Reply> {
    const told = await commissionLandingTold(this.read, this.clock, commission);
    return told
      ? page('commissions/landing/commission', commissionLandingPage(told))
      : seeOther(commissionUrl(commission));
  }
}
