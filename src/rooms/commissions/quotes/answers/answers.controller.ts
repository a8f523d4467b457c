import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { NotFound } from '../../../../domain/kernel/errors.js';
import { commissionBook } from '../../../../storage/books/commission-book.js';
import { quoteBook } from '../../../../storage/books/papers/quote-book.js';
import { studioBook } from '../../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../../storage/clock.js';
import { ReadSide } from '../../../../storage/read-side.js';
import type { Reading, Visit } from '../../../../storage/session.js';
import { UnitOfWork } from '../../../../storage/unit-of-work.js';
import { freshForm, submit } from '../../../../web/forms/form.js';
import { isConfirmed, parseForm } from '../../../../web/forms/parse.js';
import { typedOf } from '../../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../../web/reply.js';
import { Hand } from '../../../../web/visit.js';
import { draftUrl } from '../drafts/draft.page.js';
import { beginNextVersion } from '../drafts/keep-draft.js';
import { paperUrl } from '../quotes.page.js';
import { AnswerForm, CorrectionFields, readTicks } from './answer.form.js';
import { againPage, answerForm, answerPage, correctionPage } from './answer.page.js';
import { answerQuote, takeBackAnswer } from './answer-quote.js';
import { compareQuote } from './compare-quote.js';

/** An issued quote of this commission. @throws NotFound also when it is another commission's */
export const quoteOf = async (reading: Reading, commissionId: string, id: string) => {
  const quote = await quoteBook.one(reading, id);
  if (quote.commissionId !== commissionId) throw new NotFound('quote');
  return quote;
};

/** What happens to a quote after it went out. */
@Controller('commissions/:commission/quotes/:quote')
export class AnswersController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get('answer')
  async answerForm(@Param('commission') id: string, @Param('quote') quoteId: string): Promise<Reply> {
    const laid = await this.lay(id, quoteId);
    const { template, words } = answerPage(
      answerForm(laid.quote, laid.today),
      laid.commission,
      laid.quote,
      laid.today,
    );
    return page(template, words);
  }

  @Post('answer')
  async answer(
    @Param('commission') id: string,
    @Param('quote') quoteId: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    const laid = await this.lay(id, quoteId);
    return submit(
      typed,
      async () => {
        const { rest, taken } = readTicks(typed);
        const said = { ...parseForm(AnswerForm, rest), taken };
        const sure = isConfirmed(typed, 'confirm.late');
        const { value, act } = await answerQuote(this.unit, this.clock, visit, quoteId, said, sure);
        return seeOther(value.next ? draftUrl(id, value.next.id) : paperUrl(quoteId), act);
      },
      (form) => answerPage(form, laid.commission, laid.quote, laid.today),
    );
  }

  @Get('correction')
  async correctionForm(@Param('commission') id: string, @Param('quote') quoteId: string): Promise<Reply> {
    const { quote, commission, today } = await this.lay(id, quoteId);
    const { template, words } = correctionPage(freshForm(''), commission, quote, today);
    return page(template, words);
  }

  @Post('correction')
  async correction(
    @Param('commission') id: string,
    @Param('quote') quoteId: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    const { quote, commission, today } = await this.lay(id, quoteId);
    return submit(
      typed,
      async () => {
        const { reason } = parseForm(CorrectionFields, typed);
        const { act } = await takeBackAnswer(this.unit, this.clock, visit, quoteId, reason);
        return seeOther(paperUrl(quoteId), act);
      },
      (form) => correctionPage(form, commission, quote, today),
    );
  }

  @Get('again')
  async again(@Param('commission') id: string, @Param('quote') quoteId: string): Promise<Reply> {
    await quoteOf(this.read, id, quoteId);
    return page('commissions/quotes/again', againPage(await compareQuote(this.read, this.clock, quoteId)));
  }

  @Post('again')
  async nextVersion(
    @Param('commission') id: string,
    @Param('quote') quoteId: string,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await quoteOf(this.read, id, quoteId);
    const { value, act } = await beginNextVersion(this.unit, this.clock, visit, id, quoteId);
    return seeOther(draftUrl(id, value.id), act);
  }

  private async lay(id: string, quoteId: string) {
    const quote = await quoteOf(this.read, id, quoteId);
    const { identity } = await studioBook.the(this.read);
    const commission = await commissionBook.one(this.read, id);
    return { quote, commission, today: todayIn(this.clock, identity.zone) };
  }
}
