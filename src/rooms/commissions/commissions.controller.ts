import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { clientBook } from '../../storage/books/client-book.js';
import { commissionBook } from '../../storage/books/commission-book.js';
import { makingBook } from '../../storage/books/making-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../storage/clock.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { freshForm, submit, versionSeen } from '../../web/forms/form.js';
import { typedOf } from '../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../web/reply.js';
import { Hand } from '../../web/visit.js';
import { readCorrection, readOpening, tidyRows, typedCommission } from './commission.form.js';
import { commissionPage, commissionUrl } from './commission.page.js';
import { correctCommissionPage, newCommissionForm, newCommissionPage } from './commission-form.page.js';
import { commissionListPage } from './commission-list.page.js';
import { fittingsOnCommission } from './fittings/fittings-on-job.js';
import { landingOnCommission } from './landing/landing-on-job.js';
import { correctCommission, openCommission } from './open-commission.js';
import { tellCommission } from './tell-commission.js';
import { offeredPeople, personText } from './typed-person.js';

/** The pages of the Commissions room. */
@Controller('commissions')
export class CommissionsController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async list(
    @Query('q') asked = '',
    @Query('after') after = '',
    @Query('client') clientId = '',
  ): Promise<Reply> {
    const client = clientId ? await clientBook.one(this.read, clientId) : undefined;
    const found = await commissionBook.find(this.read, asked, 20, after, clientId);
    return page('commissions/list', commissionListPage(found, { asked, after, client }));
  }

  @Get('new')
  async newCommission(@Query('client') clientId = ''): Promise<Reply> {
    const client = clientId ? personText(await clientBook.one(this.read, clientId)) : '';
    const { template, words } = newCommissionPage(newCommissionForm(client), await this.offered());
    return page(template, words);
  }

  @Post()
  async open(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = tidyRows(typedOf(body));
    const { identity } = await studioBook.the(this.read);
    const today = todayIn(this.clock, identity.zone);
    return submit(
      typed,
      async () => {
        const said = await readOpening(this.read, typed, { today, locale: identity.locale });
        const { value, act } = await openCommission(this.unit, visit, said, today);
        return seeOther(commissionUrl(value.id), act);
      },
      async (form) => newCommissionPage(form, await this.offered()),
    );
  }

  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const told = await tellCommission(this.read, this.clock, id);
    const garmentIds = told.garments.map(({ garment }) => garment.id);
    const landing = await landingOnCommission(this.read, this.clock, id, garmentIds);
    const garments = told.garments.map(({ garment }) => garment);
    const fittings = await fittingsOnCommission(this.read, this.clock, id, garments);
    return page('commissions/commission', { ...commissionPage(told), landing, fittings });
  }

  @Get(':id/correct')
  async correctForm(@Param('id') id: string): Promise<Reply> {
    const commission = await commissionBook.one(this.read, id);
    const form = freshForm(commissionUrl(id), await this.typed(id), commission.version);
    const { template, words } = correctCommissionPage(form, commission, await offeredPeople(this.read));
    return page(template, words);
  }

  @Post(':id')
  correct(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = await readCorrection(this.read, typed);
        const { act } = await correctCommission(this.unit, visit, id, said, versionSeen(typed));
        return seeOther(commissionUrl(id), act);
      },
      async (form) =>
        correctCommissionPage(form, await commissionBook.one(this.read, id), await offeredPeople(this.read)),
      () => this.typed(id),
    );
  }

  private async typed(id: string): Promise<Record<string, string>> {
    const commission = await commissionBook.one(this.read, id);
    const [client, payer] = await Promise.all(
      [commission.clientId, commission.payerId].map((who) => clientBook.one(this.read, who)),
    );
    return typedCommission(commission, personText(client!), personText(payer!));
  }

  private async offered() {
    return { people: await offeredPeople(this.read), types: await makingBook.types(this.read) };
  }
}
