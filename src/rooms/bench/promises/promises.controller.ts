import { randomUUID } from 'node:crypto';
import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { NotFound } from '../../../domain/kernel/errors.js';
import { PdfPrinter } from '../../../printing/browser/pdf-printer.js';
import { printedSlip } from '../../../printing/papers/slips.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { Templates } from '../../../printing/templates/templates.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { parse } from '../../../web/forms/parse.js';
import { type Typed, typedOf } from '../../../web/forms/typed.js';
import { envelopeOf } from '../../../web/papers/house-on-paper.js';
import { file, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import { mayGo } from '../../../web/who-may.js';
import { dateInWords } from '../../../web/words/dates.js';
import { awayPage, lettersPage, rushPage, ticksOf } from './asked.page.js';
import { closeDays, openAgain } from './close-days.js';
import { lettersOf } from './letters.js';
import { asking, mustSeeJobs, PromiseDesk } from './promise-desk.js';
import { RushFields, readMoves, SpanFields } from './promises.form.js';
import { PROMISES, promisesPage } from './promises.page.js';
import { takeRush } from './rush.js';

const mayOf =
  (hand: SignedIn) =>
  (url: string): boolean =>
    mayGo(hand, 'GET', url);

/** What can be promised: dates from the backlog, a rush, and days the workroom is closed. */
@Controller('bench/promises')
export class PromisesController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly desk: PromiseDesk,
    private readonly templates: Templates,
    private readonly printer: PdfPrinter,
  ) {}

  @Get()
  async promises(@Hand() hand: SignedIn): Promise<Reply> {
    const backlog = await this.desk.backlog();
    const { dates, trouble } = await this.desk.dates(backlog);
    const words = promisesPage(backlog, dates, await this.desk.spans(backlog.today), {
      may: mayOf(hand),
      mayChange: hand.seesPrices,
      once: randomUUID,
      trouble,
    });
    return page('bench/promises/promises', words);
  }

  @Get('rush')
  async rush(@Query() query: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    const typed = typedOf(query);
    const backlog = await this.desk.backlog();
    const { asked, found } = await asking(typed, typed.typeId !== undefined, async () => {
      const { hours: minutes, ...said } = parse(RushFields, typed);
      const before = await this.desk.sureDates(backlog);
      return { before, answer: await takeRush(this.read, backlog, before, { ...said, minutes }) };
    });
    const types = await makingBook.types(this.read);
    const words = rushPage(backlog, types, asked, found?.answer, found?.before, mayOf(hand));
    return page('bench/promises/rush', words, asked.troubles.length > 0 ? 422 : 200);
  }

  @Get('away')
  async away(@Query() query: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    mustSeeJobs(hand);
    const { template, words, troubled } = await this.drawnAway(typedOf(query), undefined, hand);
    return page(template, words, troubled ? 422 : 200);
  }

  @Post('away')
  close(@Body() body: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    mustSeeJobs(hand);
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { said, moves } = readMoves(typed);
        const { value, act } = await closeDays(this.unit, hand, this.clock, said, moves);
        return seeOther(moves.length > 0 ? `${PROMISES}/letters/${value}` : PROMISES, act);
      },
      (form) => this.drawnAway(typed, form, hand),
    );
  }

  @Post('closed/:span/open')
  async open(@Param('span') span: string, @Hand() hand: SignedIn): Promise<Reply> {
    mustSeeJobs(hand);
    const { act } = await openAgain(this.unit, hand, span);
    return seeOther(PROMISES, act);
  }

  @Get('letters/:span')
  async letters(@Param('span') spanId: string, @Hand() hand: SignedIn): Promise<Reply> {
    mustSeeJobs(hand);
    const { identity } = await studioBook.the(this.read);
    const { span, letters } = await lettersOf(this.read, spanId, identity.maker || identity.name);
    return page('bench/promises/letters', lettersPage(span, spanId, letters));
  }

  @Get('letters/:span/:client.pdf')
  async letter(
    @Param('span') spanId: string,
    @Param('client') clientId: string,
    @Hand() hand: SignedIn,
  ): Promise<Reply> {
    mustSeeJobs(hand);
    const studio = await studioBook.the(this.read);
    const { identity } = studio;
    const { letters } = await lettersOf(this.read, spanId, identity.maker || identity.name);
    const letter = letters.find(({ client }) => client.id === clientId);
    if (!letter) throw new NotFound('letter');
    const { html, sheet } = printedSlip(
      this.templates,
      'commissions/cancelled/notice',
      studio.sheet,
      identity.name,
      {
        language: identity.locale,
        studio: identity.name,
        from: identity.address.split('\n').filter(Boolean),
        to: [letter.client.name, ...envelopeOf(letter.client)],
        date: dateInWords(todayIn(this.clock, identity.zone)),
        subject: letter.numbers.join(', '),
        lines: letter.text.split('\n'),
      },
    );
    const name = `Letter ${letter.client.code}.pdf`;
    return file(await this.printer.print(html, sheet), 'application/pdf', name, true);
  }

  private async drawnAway(typed: Typed, again: FormModel | undefined, hand: SignedIn) {
    const backlog = await this.desk.backlog();
    const { from, to, words } = typed;
    const isAsked = from !== undefined || to !== undefined;
    const { asked, found } = await asking({ from: '', to: '', words: '', ...typed }, isAsked, () =>
      this.desk.look(backlog, parse(SpanFields, { from, to, words })),
    );
    const form = again ?? freshForm('', found ? ticksOf(found.moves) : {});
    const drawn = awayPage(form, asked, found, { may: mayOf(hand) });
    return { ...drawn, troubled: asked.troubles.length > 0 };
  }
}
