import { Body, Controller, Get, Headers, Param, Post, Put } from '@nestjs/common';
import { z } from 'zod';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { type ListedQuote, quoteBook } from '../../../storage/books/papers/quote-book.js';
import { quoteDraftBook } from '../../../storage/books/papers/quote-draft-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { presentAs } from '../../../web/api/present-as.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../../web/forms/version.js';
import { quoteInJson } from '../../../web/papers/quote-in-json.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { AnswerSent, CorrectionFields } from './answers/answer.form.js';
import { answerQuote, takeBackAnswer } from './answers/answer-quote.js';
import { quoteOf } from './answers/answers.controller.js';
import { ChoicesSent } from './drafts/draft.form.js';
import { draftInJson } from './drafts/draft.page.js';
import { beginNextVersion, beginQuote, keepDraft, removeDraft } from './drafts/keep-draft.js';
import { Issuing } from './issuing/issuing.js';

const IssueSent = z.strictObject({
  /** Codes of the findings that were looked at. */
  confirmed: z.array(z.string()).max(100, 'At most 100 of these.').default([]),
});

/** A commission's quotes for programs: drafts, issuing, answers. */
@Controller('api/commissions/:commission/quotes')
export class QuotesApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly issuing: Issuing,
  ) {}

  @Get()
  async list(@Param('commission') id: string): Promise<Reply> {
    await commissionBook.one(this.read, id);
    const drafts = await quoteDraftBook.ofCommission(this.read, id);
    const issued = await quoteBook.ofCommission(this.read, id);
    return answer({
      drafts: drafts.map(({ choices: _, ...draft }) => draft),
      items: await Promise.all(issued.map((quote) => this.told(quote))),
    });
  }

  /** A draft begun with the house's choices; with a body, with those choices. */
  @Post()
  async begin(@Param('commission') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { identity } = await studioBook.the(this.read);
    const isEmpty = Object.keys((body ?? {}) as object).length === 0;
    const said = isEmpty ? undefined : parse(ChoicesSent(identity.currency), body);
    const { value } = await beginQuote(this.unit, this.clock, visit, id, said);
    return created(`/api/commissions/${id}/quotes/drafts/${value.id}`, await this.draftTold(id, value.id));
  }

  @Get('drafts/:draft')
  async draft(@Param('commission') id: string, @Param('draft') draftId: string): Promise<Reply> {
    const { version } = await quoteDraftBook.one(this.read, id, draftId);
    return answer(await this.draftTold(id, draftId), 200, etagOf(version));
  }

  @Put('drafts/:draft')
  async keep(
    @Param('commission') id: string,
    @Param('draft') draftId: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { identity } = await studioBook.the(this.read);
    const choices = parse(ChoicesSent(identity.currency), body);
    const { value } = await presentAs(
      () => this.draft(id, draftId),
      () => keepDraft(this.unit, visit, id, draftId, choices, versionOfIfMatch(match)),
    );
    return answer(await this.draftTold(id, draftId), 200, etagOf(value.version));
  }

  @Post('drafts/:draft/remove')
  async remove(
    @Param('commission') id: string,
    @Param('draft') draftId: string,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await presentAs(
      () => this.draft(id, draftId),
      () => removeDraft(this.unit, visit, id, draftId, versionOfIfMatch(match)),
    );
    return answer({ removed: true });
  }

  @Post('drafts/:draft/issue')
  async issue(
    @Param('commission') id: string,
    @Param('draft') draftId: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { confirmed } = parse(IssueSent, body ?? {});
    const { value } = await presentAs(
      () => this.draft(id, draftId),
      () => this.issuing.issue(visit, id, draftId, confirmed, versionOfIfMatch(match)),
    );
    return created(`/api/papers/${value}`, await this.told(await quoteBook.one(this.read, value)));
  }

  @Post(':quote/answer')
  async answer(
    @Param('commission') id: string,
    @Param('quote') quoteId: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await quoteOf(this.read, id, quoteId);
    const { said, sure } = parse(AnswerSent, body);
    const { value } = await answerQuote(this.unit, this.clock, visit, quoteId, said, sure);
    return answer(
      {
        ...(await this.told(await quoteBook.one(this.read, quoteId))),
        next: value.next ? { draftId: value.next.id } : null,
      },
      201,
    );
  }

  @Post(':quote/correction')
  async correct(
    @Param('commission') id: string,
    @Param('quote') quoteId: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await quoteOf(this.read, id, quoteId);
    const { reason } = parse(CorrectionFields, body);
    await takeBackAnswer(this.unit, this.clock, visit, quoteId, reason);
    return answer(await this.told(await quoteBook.one(this.read, quoteId)), 201);
  }

  /** The next version at today's prices, as a draft. */
  @Post(':quote/again')
  async again(
    @Param('commission') id: string,
    @Param('quote') quoteId: string,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await quoteOf(this.read, id, quoteId);
    const { value } = await beginNextVersion(this.unit, this.clock, visit, id, quoteId);
    return created(`/api/commissions/${id}/quotes/drafts/${value.id}`, await this.draftTold(id, value.id));
  }

  private async told(quote: ListedQuote): Promise<object> {
    const { identity } = await studioBook.the(this.read);
    return quoteInJson(quote, todayIn(this.clock, identity.zone));
  }

  private async draftTold(id: string, draftId: string): Promise<object> {
    const { kept, hand } = await this.issuing.inHand(id, draftId);
    return draftInJson(kept, hand);
  }
}
