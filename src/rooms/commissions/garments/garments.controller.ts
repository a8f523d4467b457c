import { Body, Controller, Get, Headers, Param, Post, Query } from '@nestjs/common';
import type { Garment } from '../../../domain/commissions/garment.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit, versionSeen } from '../../../web/forms/form.js';
import { typedOf } from '../../../web/forms/typed.js';
import { type PageWords, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { moneyForField } from '../../../web/words/amounts.js';
import { commissionCrumbs, commissionUrl, garmentUrl } from '../commission.page.js';
import { makeOptions, typeOptions } from '../commission-form.page.js';
import { addGarment } from '../open-commission.js';
import { offeredPeople, personText } from '../typed-person.js';
import { correctGarment, garmentIn, setOwnPrice, takeOutGarment, whatStaysOf } from './change-garment.js';
import { drawJobSheet, JOB_FRAME } from './draw-job-sheet.js';
import { readGarment, readOwnPrice, typedGarment } from './garment.form.js';

/** The job sheet of each garment, and the garments of a commission added, corrected and taken out. */
@Controller('commissions/:commission/garments')
export class GarmentsController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get('new')
  async newGarment(@Param('commission') commission: string): Promise<Reply> {
    const { template, words } = await this.edit(freshForm('', { make: 'hand-where-it-shows' }), commission);
    return page(template, words);
  }

  @Post()
  add(@Param('commission') commission: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { value, act } = await addGarment(
          this.unit,
          visit,
          commission,
          await readGarment(this.read, typed),
        );
        return seeOther(garmentUrl(commission, value.id), act);
      },
      (form) => this.edit(form, commission),
    );
  }

  @Get(':garment')
  async jobSheet(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Query('at') at = '',
    @Headers('turbo-frame') frame = '',
  ): Promise<Reply> {
    const { template, words } = await drawJobSheet(this.read, this.clock, commission, garment, {
      at,
      isInFrame: frame === JOB_FRAME,
    });
    return page(template, words);
  }

  @Get(':garment/correct')
  async correctForm(@Param('commission') commission: string, @Param('garment') id: string): Promise<Reply> {
    const garment = await garmentIn(this.read, commission, id);
    const form = freshForm('', await this.typed(garment), garment.version);
    const { template, words } = await this.edit(form, commission, garment);
    return page(template, words);
  }

  @Post(':garment')
  async correct(
    @Param('commission') commission: string,
    @Param('garment') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    const garment = await garmentIn(this.read, commission, id);
    return submit(
      typed,
      async () => {
        const said = await readGarment(this.read, typed);
        const { act } = await correctGarment(this.unit, visit, id, said, versionSeen(typed));
        return seeOther(garmentUrl(commission, id), act);
      },
      (form) => this.edit(form, commission, garment),
      async () => this.typed(await garmentIn(this.read, commission, id)),
    );
  }

  @Post(':garment/take-out')
  async takeOut(
    @Param('commission') commission: string,
    @Param('garment') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await garmentIn(this.read, commission, id);
    const { act } = await takeOutGarment(this.unit, visit, id, versionSeen(typedOf(body)));
    return seeOther(commissionUrl(commission), act);
  }

  @Post(':garment/price')
  async price(
    @Param('commission') commission: string,
    @Param('garment') id: string,
    @Body() body: unknown,
    @Headers('turbo-frame') frame: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    await garmentIn(this.read, commission, id);
    const { identity } = await studioBook.the(this.read);
    return submit(
      typed,
      async () => {
        const ownPrice = readOwnPrice(typed, identity);
        const { act } = await setOwnPrice(this.unit, visit, id, ownPrice, versionSeen(typed));
        return seeOther(`${garmentUrl(commission, id)}#price`, act);
      },
      (form) =>
        drawJobSheet(this.read, this.clock, commission, id, {
          price: form,
          isInFrame: frame === JOB_FRAME,
        }),
      async () => {
        const { ownPrice } = await garmentIn(this.read, commission, id);
        return { ownPrice: ownPrice ? moneyForField(ownPrice, identity.locale) : '' };
      },
    );
  }

  private async typed(garment: Garment): Promise<Record<string, string>> {
    return typedGarment(garment, personText(await clientBook.one(this.read, garment.wearerId)));
  }

  private async edit(
    form: FormModel,
    commissionId: string,
    garment?: Garment,
  ): Promise<{ template: string; words: PageWords }> {
    const commission = await commissionBook.one(this.read, commissionId);
    const url = garment ? garmentUrl(commissionId, garment.id) : `${commissionUrl(commissionId)}/garments`;
    return {
      template: 'commissions/garments/edit',
      words: {
        title: garment ? `Correct the ${garment.name}` : `One garment more for ${commission.number}`,
        room: 'commissions',
        crumbs: [...commissionCrumbs(commission), ...(garment ? [{ text: garment.name, href: url }] : [])],
        form: { ...form, action: url },
        isNew: garment === undefined,
        stays: (garment && (await whatStaysOf(this.read, garment))) ?? '',
        cancel: `${url}/cancel`,
        types: typeOptions(await makingBook.types(this.read)),
        makes: makeOptions,
        people: await offeredPeople(this.read),
        leave: { text: 'Leave without saving', href: garment ? url : commissionUrl(commissionId) },
        takeOut: garment
          ? {
              action: `${url}/take-out`,
              text: 'Take it out of the commission',
              once: freshForm('').once,
              values: { version: String(garment.version) },
            }
          : { action: '', text: '' },
      },
    };
  }
}
