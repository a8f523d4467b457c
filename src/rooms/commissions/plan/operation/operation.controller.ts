import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { handPaces } from '../../../../domain/lessons/hand-paces.js';
import type { FormModel } from '../../../../printing/templates/page-model.js';
import { commissionBook } from '../../../../storage/books/commission-book.js';
import { lessonBook } from '../../../../storage/lesson/lesson-book.js';
import { ReadSide } from '../../../../storage/read-side.js';
import type { Visit } from '../../../../storage/session.js';
import { UnitOfWork } from '../../../../storage/unit-of-work.js';
import { freshForm, submit, versionSeen } from '../../../../web/forms/form.js';
import { parseForm } from '../../../../web/forms/parse.js';
import { typedOf } from '../../../../web/forms/typed.js';
import { type PageWords, page, type Reply, seeOther } from '../../../../web/reply.js';
import { Hand } from '../../../../web/visit.js';
import { garmentUrl } from '../../commission.page.js';
import { garmentIn } from '../../garments/change-garment.js';
import { changeOneOperation, operationOf } from './change-operation.js';
import { OperationForm, operationSaid, typedOperation } from './operation.form.js';
import { operationPage } from './operation.page.js';

/** One operation of a plan, with all that can be said about it. */
@Controller('commissions/:commission/garments/:garment/plan/:operation')
export class OperationController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async form(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Param('operation') id: string,
  ): Promise<Reply> {
    const one = await operationOf(this.read, garment, id);
    const form = freshForm('', typedOperation(one), one.version);
    const { template, words } = await this.edit(form, commission, garment, id);
    return page(template, words);
  }

  @Post()
  async change(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Param('operation') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    await garmentIn(this.read, commission, garment);
    await operationOf(this.read, garment, id);
    return submit(
      typed,
      async () => {
        const said = parseForm(OperationForm, typed);
        const { act } = await changeOneOperation(
          this.unit,
          visit,
          garment,
          id,
          (present) => operationSaid(present, said),
          versionSeen(typed),
        );
        return seeOther(`${garmentUrl(commission, garment)}#plan`, act);
      },
      (form) => this.edit(form, commission, garment, id),
      async () => typedOperation(await operationOf(this.read, garment, id)),
    );
  }

  private async edit(
    form: FormModel,
    commissionId: string,
    garmentId: string,
    id: string,
  ): Promise<{ template: string; words: PageWords }> {
    const garment = await garmentIn(this.read, commissionId, garmentId);
    const commission = await commissionBook.one(this.read, commissionId);
    const paces = handPaces(await lessonBook.closed(this.read));
    return operationPage(form, commission, garment, await operationOf(this.read, garmentId, id), paces);
  }
}
