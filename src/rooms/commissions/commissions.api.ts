import { Body, Controller, Get, Headers, Param, Post, Put, Query } from '@nestjs/common';
import type { Commission } from '../../domain/commissions/commission.js';
import { Invalid } from '../../domain/kernel/errors.js';
import { commissionBook } from '../../storage/books/commission-book.js';
import { garmentBook } from '../../storage/books/garment-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../storage/clock.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { pageSize } from '../../web/api/page-size.js';
import { presentAs } from '../../web/api/present-as.js';
import { sentKit } from '../../web/fields/kits.js';
import { parse } from '../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../web/forms/version.js';
import { answer, created, type Reply } from '../../web/reply.js';
import { Hand } from '../../web/visit.js';
import { CommissionSent, CorrectionSent, GarmentSent } from './commission.form.js';
import { addGarment, correctCommission, openCommission } from './open-commission.js';
import { priceCommission } from './price-commission.js';
import { PricingFields } from './pricing.form.js';

/** Commissions for programs. */
@Controller('api/commissions')
export class CommissionsApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async list(
    @Query('q') asked = '',
    @Query('after') after = '',
    @Query('limit') limit = '20',
    @Query('client') client = '',
  ): Promise<Reply> {
    const most = pageSize(limit, 20);
    return answer(await commissionBook.find(this.read, asked, most, after, client));
  }

  @Post()
  async open(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { openedOn, ...said } = parse(CommissionSent, body);
    const { identity } = await studioBook.the(this.read);
    const day = openedOn ?? todayIn(this.clock, identity.zone);
    const { value } = await openCommission(this.unit, visit, said, day);
    return created(`/api/commissions/${value.id}`, await this.whole(value));
  }

  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const commission = await commissionBook.one(this.read, id);
    return answer(await this.whole(commission), 200, etagOf(commission.version));
  }

  @Put(':id')
  async correct(
    @Param('id') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { openedOn, ...said } = parse(CorrectionSent, body);
    if (openedOn !== undefined) throw Invalid.field('openedOn', 'The day it was opened stands.');
    const { value } = await presentAs(
      () => this.one(id),
      () => correctCommission(this.unit, visit, id, said, versionOfIfMatch(match)),
    );
    return answer(await this.whole(value), 200, etagOf(value.version));
  }

  @Put(':id/pricing')
  async price(
    @Param('id') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { identity } = await studioBook.the(this.read);
    const said = parse(PricingFields(sentKit(identity.currency)), body);
    const { value } = await presentAs(
      () => this.one(id),
      () => priceCommission(this.unit, visit, id, said, versionOfIfMatch(match)),
    );
    return answer(await this.whole(value), 200, etagOf(value.version));
  }

  @Get(':id/garments')
  async garments(@Param('id') id: string): Promise<Reply> {
    await commissionBook.one(this.read, id);
    return answer({ items: await garmentBook.ofCommission(this.read, id) });
  }

  @Post(':id/garments')
  async addGarment(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { value } = await addGarment(this.unit, visit, id, parse(GarmentSent, body));
    return created(`/api/garments/${value.id}`, value);
  }

  private async whole(commission: Commission): Promise<object> {
    return { ...commission, garments: await garmentBook.ofCommission(this.read, commission.id) };
  }
}
