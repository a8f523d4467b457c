import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit, versionSeen } from '../../../web/forms/form.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import { mayGo } from '../../../web/who-may.js';
import { readHeld, readNotHeld, readPlanned, tidyCorrections, typedPlanned } from './fitting.form.js';
import { fittingPage, fittingsPage, fittingUrl } from './fitting.page.js';
import {
  holdPage,
  newFittingForm,
  nextKind,
  notHeldPage,
  planPage,
  typedHeld,
} from './fitting-forms.page.js';
import { fittingIn, holdFitting, moveFitting, notHeldFitting, planFitting } from './keep-fitting.js';
import { type FittingTold, tellFitting, tellFittings } from './tell-fitting.js';

/** Fittings of a commission: planned, held, missed, put off. */
@Controller('commissions/:commission/fittings')
export class FittingsController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async all(@Param('commission') commission: string): Promise<Reply> {
    return page(
      'commissions/fittings/list',
      fittingsPage(await tellFittings(this.read, this.clock, commission)),
    );
  }

  @Get('new')
  async planForm(
    @Param('commission') commission: string,
    @Query('garment') garment = '',
    @Query('like') like = '',
  ): Promise<Reply> {
    const told = await tellFittings(this.read, this.clock, commission);
    const { template, words } = planPage(told, newFittingForm(told, garment, like));
    return page(template, words);
  }

  @Post()
  plan(@Param('commission') commission: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { value, act } = await planFitting(this.unit, visit, commission, readPlanned(typed));
        return seeOther(fittingUrl(value), act);
      },
      async (form) => planPage(await tellFittings(this.read, this.clock, commission), form),
    );
  }

  @Get(':fitting')
  async one(
    @Param('commission') commission: string,
    @Param('fitting') id: string,
    @Hand() visit: SignedIn,
  ): Promise<Reply> {
    const may = (href: string): boolean => mayGo(visit, 'GET', href);
    return page('commissions/fittings/fitting', fittingPage(await this.told(commission, id), may));
  }

  @Get(':fitting/change')
  async moveForm(@Param('commission') commission: string, @Param('fitting') id: string): Promise<Reply> {
    const told = await this.told(commission, id);
    const form = freshForm('', typedPlanned(told.fitting), told.fitting.version);
    const { template, words } = planPage(told, form, told.fitting);
    return page(template, words);
  }

  @Post(':fitting')
  async move(
    @Param('commission') commission: string,
    @Param('fitting') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    await fittingIn(this.read, commission, id);
    return submit(
      typed,
      async () => {
        const { value, act } = await moveFitting(
          this.unit,
          visit,
          id,
          readPlanned(typed),
          versionSeen(typed),
        );
        return seeOther(fittingUrl(value), act);
      },
      async (form) => {
        const told = await this.told(commission, id);
        return planPage(told, form, told.fitting);
      },
      async () => typedPlanned(await fittingIn(this.read, commission, id)),
    );
  }

  @Get(':fitting/hold')
  async holdForm(@Param('commission') commission: string, @Param('fitting') id: string): Promise<Reply> {
    const told = await this.told(commission, id);
    const values = { ...typedHeld(told), nextKind: nextKind(told.fitting) };
    return this.drawn(holdPage(told, freshForm('', values, told.fitting.version)));
  }

  @Post(':fitting/hold')
  async hold(
    @Param('commission') commission: string,
    @Param('fitting') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = tidyCorrections(typedOf(body));
    await fittingIn(this.read, commission, id);
    return submit(
      typed,
      async () => {
        const { value, act } = await holdFitting(
          this.unit,
          visit,
          this.clock,
          id,
          readHeld(typed),
          versionSeen(typed),
        );
        return seeOther(fittingUrl(value), act);
      },
      async (form: FormModel) => holdPage(await this.told(commission, id), form),
      async () => typedHeld(await this.told(commission, id)),
    );
  }

  @Get(':fitting/not-held')
  async notHeldForm(@Param('commission') commission: string, @Param('fitting') id: string): Promise<Reply> {
    const told = await this.told(commission, id);
    const form = freshForm('', { nextKind: told.fitting.kind }, told.fitting.version);
    return this.drawn(notHeldPage(told, form));
  }

  @Post(':fitting/not-held')
  async notHeld(
    @Param('commission') commission: string,
    @Param('fitting') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    await fittingIn(this.read, commission, id);
    return submit(
      typed,
      async () => {
        const said = readNotHeld(typed);
        const { value, act } = await notHeldFitting(this.unit, visit, id, said, versionSeen(typed));
        return seeOther(fittingUrl(value), act);
      },
      async (form) => notHeldPage(await this.told(commission, id), form),
    );
  }

  private told(commission: string, id: string): Promise<FittingTold> {
    return tellFitting(this.read, this.clock, commission, id);
  }

  private drawn({ template, words }: ReturnType<typeof holdPage>): Reply {
    return page(template, words);
  }
}
