import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { CUT_QUESTIONS, type CutQuestion } from '../../../domain/commissions/cutting.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { type PageWords, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { commissionCrumbs, garmentUrl } from '../commission.page.js';
import { garmentIn } from '../garments/change-garment.js';
import { type BeforeCutting, beforeCutting } from './before-cutting.js';
import { cutGarment } from './cut-garment.js';
import { CuttingForm, mustHaveCome } from './cutting.form.js';

const ASKED: Readonly<Record<CutQuestion, string>> = {
  measurements: 'Are the measurements current?',
  cloth: 'Was the cloth checked: length, width, flaws, nap, shrinkage?',
  deposit: 'Is the deposit in?',
  quote: 'Was this version of the quote accepted?',
};

const WHY: Readonly<Record<CutQuestion, string>> = {
  measurements: 'Why it is cut all the same, where they are not current',
  cloth: 'Why it is cut all the same, where it was not checked',
  deposit: 'Why it is cut all the same, where it is not in',
  quote: 'Why it is cut all the same, where it was not accepted',
};

/** Cutting recorded: one page, asked once. */
@Controller('commissions/:commission/garments/:garment/cut')
export class CuttingController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async ask(@Param('commission') commission: string, @Param('garment') garment: string): Promise<Reply> {
    const { template, words } = await this.drawn(commission, garment);
    return page(template, words);
  }

  @Post()
  async cut(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    await garmentIn(this.read, commission, garment);
    const studio = await studioBook.the(this.read);
    const today = todayIn(this.clock, studio.identity.zone);
    return submit(
      typed,
      async () => {
        const said = parseForm(CuttingForm(studio, today), typed);
        mustHaveCome(said.on, today);
        const { act } = await cutGarment(this.unit, visit, garment, said);
        return seeOther(garmentUrl(commission, garment), act);
      },
      (form) => this.drawn(commission, garment, form),
    );
  }

  private async drawn(
    commissionId: string,
    id: string,
    form?: FormModel,
  ): Promise<{ template: string; words: PageWords }> {
    const garment = await garmentIn(this.read, commissionId, id);
    const commission = await commissionBook.one(this.read, commissionId);
    const { identity } = await studioBook.the(this.read);
    const today = todayIn(this.clock, identity.zone);
    const before = await beforeCutting(this.read, garment, today);
    const url = garmentUrl(commissionId, id);
    return {
      template: 'commissions/cutting/cut',
      words: {
        title: `Before the ${garment.name} is cut`,
        room: 'commissions',
        crumbs: [...commissionCrumbs(commission), { text: garment.name, href: url }],
        form: { ...(form ?? freshForm('', { on: today, ...answersKnown(before) })), action: `${url}/cut` },
        questions: CUT_QUESTIONS.map((question) => ({
          name: question,
          words: `${question}Words`,
          label: ASKED[question],
          why: WHY[question],
          known: before.known[question].words,
        })),
        leave: { text: 'Not yet', href: url },
      },
    };
  }
}

const answersKnown = ({ known }: BeforeCutting): Record<string, string> =>
  Object.fromEntries(
    CUT_QUESTIONS.flatMap((question) => {
      const { isSo } = known[question];
      return isSo === undefined ? [] : [[question, isSo ? 'yes' : 'no']];
    }),
  );
