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
import { addExpense, changeExpense, expenseOf, takeOutExpense } from './change-materials.js';
import { ExpenseForm, typedExpense } from './material.form.js';

/** What a garment is planned to cost besides: outwork, a courier. */
@Controller('commissions/:commission/garments/:garment/expenses')
export class ExpensesController {
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
        const said = parseForm(ExpenseForm(await studioBook.the(this.read)), typed);
        const { act } = await addExpense(this.unit, visit, garment, said);
        return seeOther(`${garmentUrl(commission, garment)}?at=expense`, act);
      },
      (form) =>
        drawJobSheet(this.read, this.clock, commission, garment, {
          expense: form,
          isInFrame: frame === JOB_FRAME,
        }),
    );
  }

  @Get(':expense')
  async form(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Param('expense') id: string,
  ): Promise<Reply> {
    const values = await this.typed(garment, id);
    const { version } = await expenseOf(this.read, garment, id);
    const { template, words } = await this.edit(freshForm('', values, version), commission, garment, id);
    return page(template, words);
  }

  @Post(':expense')
  async change(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Param('expense') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    await garmentIn(this.read, commission, garment);
    return submit(
      typed,
      async () => {
        const said = parseForm(ExpenseForm(await studioBook.the(this.read)), typed);
        const { act } = await changeExpense(this.unit, visit, garment, id, said, versionSeen(typed));
        return seeOther(`${garmentUrl(commission, garment)}#expenses`, act);
      },
      (form) => this.edit(form, commission, garment, id),
      () => this.typed(garment, id),
    );
  }

  @Post(':expense/take-out')
  async takeOut(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Param('expense') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await garmentIn(this.read, commission, garment);
    const { act } = await takeOutExpense(this.unit, visit, garment, id, versionSeen(typedOf(body)));
    return seeOther(`${garmentUrl(commission, garment)}#expenses`, act);
  }

  private async typed(garment: string, id: string): Promise<Record<string, string>> {
    const { identity } = await studioBook.the(this.read);
    return typedExpense(await expenseOf(this.read, garment, id), identity.locale);
  }

  private async edit(
    form: FormModel,
    commissionId: string,
    garmentId: string,
    id: string,
  ): Promise<{ template: string; words: PageWords }> {
    const commission = await commissionBook.one(this.read, commissionId);
    const garment = await garmentIn(this.read, commissionId, garmentId);
    const expense = await expenseOf(this.read, garmentId, id);
    const { identity } = await studioBook.the(this.read);
    const url = garmentUrl(commissionId, garmentId);
    return {
      template: 'commissions/materials/expense',
      words: {
        title: expense.name,
        room: 'commissions',
        crumbs: [...commissionCrumbs(commission), { text: garment.name, href: url }],
        form: { ...form, action: `${url}/expenses/${id}` },
        currency: identity.currency,
        leave: { text: 'Leave as it is', href: `${url}#expenses` },
        takeOut: {
          action: `${url}/expenses/${id}/take-out`,
          text: 'Take it out',
          label: `Take out ${expense.name}`,
          once: freshForm('').once,
          values: { version: String(expense.version) },
        },
      },
    };
  }
}
