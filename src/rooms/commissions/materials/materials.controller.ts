import { Body, Controller, Get, Headers, Param, Post } from '@nestjs/common';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit, versionSeen } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { type PageWords, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { commissionCrumbs, garmentUrl } from '../commission.page.js';
import { garmentIn } from '../garments/change-garment.js';
import { drawJobSheet, JOB_FRAME } from '../garments/draw-job-sheet.js';
import { addMaterial, changeMaterial, materialOf, takeOutMaterial } from './change-materials.js';
import { MaterialForm, typedMaterial } from './material.form.js';

/** What a garment is planned to take of cloth and trimmings. */
@Controller('commissions/:commission/garments/:garment/materials')
export class MaterialsController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Post()
  async add(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Body() body: unknown,
    @Headers('turbo-frame') frame: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    await garmentIn(this.read, commission, garment);
    return submit(
      typed,
      async () => {
        const said = parseForm(MaterialForm(await studioBook.the(this.read)), typed);
        const { act } = await addMaterial(this.unit, visit, garment, said);
        return seeOther(`${garmentUrl(commission, garment)}?at=material`, act);
      },
      (form) =>
        drawJobSheet(this.read, this.clock, commission, garment, {
          material: form,
          isInFrame: frame === JOB_FRAME,
        }),
    );
  }

  @Get(':material')
  async form(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Param('material') id: string,
  ): Promise<Reply> {
    const values = await this.typed(garment, id);
    const { version } = await materialOf(this.read, garment, id);
    const { template, words } = await this.edit(freshForm('', values, version), commission, garment, id);
    return page(template, words);
  }

  @Post(':material')
  async change(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Param('material') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    await garmentIn(this.read, commission, garment);
    return submit(
      typed,
      async () => {
        const said = parseForm(MaterialForm(await studioBook.the(this.read)), typed);
        const { act } = await changeMaterial(this.unit, visit, garment, id, said, versionSeen(typed));
        return seeOther(`${garmentUrl(commission, garment)}#materials`, act);
      },
      (form) => this.edit(form, commission, garment, id),
      () => this.typed(garment, id),
    );
  }

  @Post(':material/take-out')
  async takeOut(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Param('material') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await garmentIn(this.read, commission, garment);
    const { act } = await takeOutMaterial(this.unit, visit, garment, id, versionSeen(typedOf(body)));
    return seeOther(`${garmentUrl(commission, garment)}#materials`, act);
  }

  private async typed(garment: string, id: string): Promise<Record<string, string>> {
    const { identity } = await studioBook.the(this.read);
    return typedMaterial(await materialOf(this.read, garment, id), identity.locale);
  }

  private async edit(
    form: FormModel,
    commissionId: string,
    garmentId: string,
    id: string,
  ): Promise<{ template: string; words: PageWords }> {
    const commission = await commissionBook.one(this.read, commissionId);
    const garment = await garmentIn(this.read, commissionId, garmentId);
    const material = await materialOf(this.read, garmentId, id);
    const { identity } = await studioBook.the(this.read);
    const url = garmentUrl(commissionId, garmentId);
    return {
      template: 'commissions/materials/material',
      words: {
        title: material.name,
        room: 'commissions',
        crumbs: [...commissionCrumbs(commission), { text: garment.name, href: url }],
        form: { ...form, action: `${url}/materials/${id}` },
        currency: identity.currency,
        leave: { text: 'Leave as it is', href: `${url}#materials` },
        takeOut: {
          action: `${url}/materials/${id}/take-out`,
          text: 'Take it out',
          label: `Take out ${material.name}`,
          once: freshForm('').once,
          values: { version: String(material.version) },
        },
      },
    };
  }
}
