import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { z } from 'zod';
import type { GarmentMark } from '../../../domain/commissions/garment-mark.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { line } from '../../../web/fields/fields.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { type PageWords, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { dateInWords } from '../../../web/words/dates.js';
import { commissionCrumbs, garmentUrl } from '../commission.page.js';
import { garmentIn } from '../garments/change-garment.js';
import { MARK_WORDS, mayTakeBack, takeBackMark } from './take-back-mark.js';

/** Why a mark is taken back. */
export const ReasonFields = z.strictObject({ reason: line('Say why it is taken back.', 1000) });

/** What happened to a garment, taken back with a reason. */
@Controller('commissions/:commission/garments/:garment/marks/:mark/take-back')
export class MarksController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async ask(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Param('mark') mark: string,
  ): Promise<Reply> {
    const { template, words } = await this.drawn(commission, garment, mark, freshForm(''));
    return page(template, words);
  }

  @Post()
  takeBack(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Param('mark') mark: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        await garmentIn(this.read, commission, garment);
        const { reason } = parseForm(ReasonFields, typed);
        const { act } = await takeBackMark(this.unit, visit, garment, mark, reason);
        return seeOther(garmentUrl(commission, garment), act);
      },
      (form) => this.drawn(commission, garment, mark, form),
    );
  }

  private async drawn(
    commissionId: string,
    id: string,
    markId: string,
    form: FormModel,
  ): Promise<{ template: string; words: PageWords }> {
    const garment = await garmentIn(this.read, commissionId, id);
    const commission = await commissionBook.one(this.read, commissionId);
    const mark: GarmentMark = await garmentMarkBook.one(this.read, markId);
    if (mark.garmentId !== id || !mayTakeBack(mark.kind)) throw new NotFound('mark on this garment');
    const url = garmentUrl(commissionId, id);
    return {
      template: 'commissions/life/take-back',
      words: {
        title: `Take back: ${MARK_WORDS[mark.kind]}`,
        room: 'commissions',
        crumbs: [...commissionCrumbs(commission), { text: garment.name, href: url }],
        form: { ...form, action: `${url}/marks/${markId}/take-back` },
        what: `The ${garment.name}: ${MARK_WORDS[mark.kind]} on ${dateInWords(mark.on)}, put down by ${mark.who}.`,
        leave: { text: 'Leave it as it is', href: url },
      },
    };
  }
}
