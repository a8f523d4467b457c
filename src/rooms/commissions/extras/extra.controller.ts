import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { NotFound } from '../../../domain/kernel/errors.js';
import { PdfPrinter } from '../../../printing/browser/pdf-printer.js';
import { printedSlip } from '../../../printing/papers/slips.js';
import { Templates } from '../../../printing/templates/templates.js';
import { extraBook } from '../../../storage/books/bench/extra-book.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { submit, versionSeen } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { file, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { dateInWords } from '../../../web/words/dates.js';
import { answerExtra, offerTakingBack } from './change-extras.js';
import { AnswerFields, CardFields, TakeBackFields } from './extra.form.js';
import { cardPage, type ExtraTold, extraPage, extrasPage } from './extra.page.js';
import { dayForClient, extraUrl, priceForClient } from './extra-words.js';

/** One extra: the studio's page of it, the client's card, what was answered, and taking it back. */
@Controller('commissions/:commission/extras')
export class ExtraController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly templates: Templates,
    private readonly printer: PdfPrinter,
  ) {}

  @Get()
  async list(@Param('commission') id: string): Promise<Reply> {
    const { template, words } = extrasPage(
      await studioBook.the(this.read),
      await commissionBook.one(this.read, id),
      await extraBook.ofCommission(this.read, id),
      await garmentBook.ofCommission(this.read, id),
    );
    return page(template, words);
  }

  @Get(':number')
  async one(@Param('commission') id: string, @Param('number') number: string): Promise<Reply> {
    const { template, words } = extraPage(await this.told(id, number));
    return page(template, words);
  }

  @Post(':number/answer')
  async answer(
    @Param('commission') id: string,
    @Param('number') number: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    const { extra, studio, today } = await this.told(id, number);
    return submit(
      typed,
      async () => {
        const { act, on, ...said } = parseForm(AnswerFields(studio, today), typed);
        const answer = { ...said, on: on ?? today };
        const seen = versionSeen(typed);
        const done = await answerExtra(this.unit, visit, extra.id, act, answer, today, seen);
        return seeOther(extraUrl(extra), done.act);
      },
      async (form) => extraPage(await this.told(id, number), form),
    );
  }

  @Post(':number/take-back')
  async takeBack(
    @Param('commission') id: string,
    @Param('number') number: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { extra, today } = await this.told(id, number);
    const { wording } = parseForm(TakeBackFields, typedOf(body));
    const { value, act } = await offerTakingBack(this.unit, visit, extra.id, wording, today);
    return seeOther(extraUrl(value), act);
  }

  @Get(':number/card')
  async card(@Param('commission') id: string, @Param('number') number: string): Promise<Reply> {
    const { template, words } = cardPage(await this.told(id, number));
    return page(template, words);
  }

  /** What the client wrote on the card; it is shown again, so that they see what they agreed to. */
  @Post(':number/card')
  async accept(
    @Param('commission') id: string,
    @Param('number') number: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    const { extra, today } = await this.told(id, number);
    return submit(
      typed,
      async () => {
        const said = parseForm(CardFields, typed);
        const answer = { ...said, on: today, words: '' };
        await answerExtra(this.unit, visit, extra.id, 'agreed', answer, today, versionSeen(typed));
        return seeOther(`${extraUrl(extra)}/card`);
      },
      async (form) => cardPage(await this.told(id, number), form),
    );
  }

  @Get(':number/card.pdf')
  async cardPdf(@Param('commission') id: string, @Param('number') number: string): Promise<Reply> {
    const { extra, studio, garment } = await this.told(id, number);
    const { identity } = studio;
    const { html, sheet } = printedSlip(
      this.templates,
      'commissions/extras/card-paper',
      'A6',
      identity.name,
      {
        language: identity.locale,
        studio: identity.name,
        name: `Extra ${extra.number}`,
        garment: garment?.name ?? '',
        wording: extra.wording,
        price: priceForClient(extra, identity.locale),
        day: dayForClient(extra),
        date: dateInWords(extra.offeredOn),
      },
    );
    const bytes = await this.printer.print(html, sheet);
    return file(bytes, 'application/pdf', `extra-${extra.number}.pdf`, true);
  }

  private async told(commissionId: string, number: string): Promise<ExtraTold> {
    if (!/^\d{1,6}$/.test(number)) throw new NotFound('extra of this commission');
    const commission = await commissionBook.one(this.read, commissionId);
    const extra = await extraBook.numbered(this.read, commissionId, Number(number));
    const studio = await studioBook.the(this.read);
    const garments = await garmentBook.ofCommission(this.read, commissionId);
    return {
      studio,
      commission,
      extra,
      garment: garments.find(({ id }) => id === extra.garmentId),
      others: await extraBook.ofCommission(this.read, commissionId),
      today: todayIn(this.clock, studio.identity.zone),
      clientName: (await clientBook.one(this.read, commission.clientId)).name,
    };
  }
}
