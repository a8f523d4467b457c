import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { quoteBook } from '../../../storage/books/papers/quote-book.js';
import { quoteDraftBook } from '../../../storage/books/papers/quote-draft-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { submit, versionSeen } from '../../../web/forms/form.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { readChoices, tidyDraft, typedChoices } from './drafts/draft.form.js';
import { draftForm, draftPage, draftUrl, withEveryGarment } from './drafts/draft.page.js';
import { beginQuote, keepDraft, removeDraft } from './drafts/keep-draft.js';
import { Issuing } from './issuing/issuing.js';
import { quotesPage, quotesUrl } from './quotes.page.js';

/** The quotes of a commission, and the drafts they begin as. */
@Controller('commissions/:commission/quotes')
export class QuotesController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly issuing: Issuing,
  ) {}

  @Get()
  async list(@Param('commission') id: string): Promise<Reply> {
    const commission = await commissionBook.one(this.read, id);
    const { identity } = await studioBook.the(this.read);
    return page(
      'commissions/quotes/list',
      quotesPage(
        commission,
        await quoteDraftBook.ofCommission(this.read, id),
        await quoteBook.ofCommission(this.read, id),
        {
          today: todayIn(this.clock, identity.zone),
          locale: identity.locale,
          garments: (await garmentBook.ofCommission(this.read, id)).length,
        },
      ),
    );
  }

  @Post()
  async begin(@Param('commission') id: string, @Hand() visit: Visit): Promise<Reply> {
    const { value, act } = await beginQuote(this.unit, this.clock, visit, id);
    return seeOther(draftUrl(id, value.id), act);
  }

  @Get('drafts/:draft')
  async draft(@Param('commission') id: string, @Param('draft') draftId: string): Promise<Reply> {
    const { kept, hand } = await this.issuing.inHand(id, draftId);
    const garments = await garmentBook.ofCommission(this.read, id);
    const { template, words } = draftPage(
      draftForm(kept, garments, hand.studio.identity.locale),
      kept,
      garments,
      hand,
    );
    return page(template, words);
  }

  @Post('drafts/:draft')
  async keep(
    @Param('commission') id: string,
    @Param('draft') draftId: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = tidyDraft(typedOf(body));
    const { identity } = await studioBook.the(this.read);
    const after = typed.then === 'check' ? '/check' : typed.then === 'preview' ? '/preview' : '';
    return submit(
      typed,
      async () => {
        const choices = readChoices(typed, identity);
        const { act } = await keepDraft(this.unit, visit, id, draftId, choices, versionSeen(typed));
        return seeOther(`${draftUrl(id, draftId)}${after}`, act);
      },
      async (form) => {
        const { kept, hand } = await this.issuing.inHand(id, draftId);
        return draftPage(form, kept, await garmentBook.ofCommission(this.read, id), hand);
      },
      async () => {
        const { choices } = await quoteDraftBook.one(this.read, id, draftId);
        const garments = await garmentBook.ofCommission(this.read, id);
        return typedChoices(withEveryGarment(choices, garments), identity.locale);
      },
    );
  }

  @Post('drafts/:draft/remove')
  async remove(
    @Param('commission') id: string,
    @Param('draft') draftId: string,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { act } = await removeDraft(this.unit, visit, id, draftId);
    return seeOther(quotesUrl(id), act);
  }
}
