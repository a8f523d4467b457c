import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { standingMarks } from '../../../domain/commissions/garment-mark.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { PdfPrinter } from '../../../printing/browser/pdf-printer.js';
import { printedSlip } from '../../../printing/papers/slips.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { Templates } from '../../../printing/templates/templates.js';
import { benchBook } from '../../../storage/books/bench/bench-book.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { envelopeOf } from '../../../web/papers/house-on-paper.js';
import { file, type PageWords, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { dateInWords } from '../../../web/words/dates.js';
import { commissionCrumbs, garmentUrl } from '../commission.page.js';
import { mustHaveCome } from '../cutting/cutting.form.js';
import { garmentIn } from '../garments/change-garment.js';
import { beforeHandOver } from '../hand-over/before-hand-over.js';
import { cancelGarment, cancelledTold, keepNotice } from './cancel-garment.js';
import { CancelForm, NoticeForm } from './cancelled.form.js';
import { CAUTION, figuresTable } from './cancelled.page.js';
import { draftNotice } from './notice-words.js';

type Drawn = { template: string; words: PageWords };

/** A garment that is cancelled, and one that nobody collects. */
@Controller('commissions/:commission/garments/:garment')
export class CancelledController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly templates: Templates,
    private readonly printer: PdfPrinter,
  ) {}

  @Get('cancel')
  async ask(@Param('commission') commission: string, @Param('garment') garment: string): Promise<Reply> {
    return shown(await this.drawnCancel(commission, garment));
  }

  @Post('cancel')
  async cancel(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    const { studio, today, url } = await this.frame(commission, garment);
    return submit(
      typed,
      async () => {
        const said = parseForm(CancelForm(studio, today), typed);
        mustHaveCome(said.on, today);
        const { act } = await cancelGarment(this.unit, visit, garment, said);
        return seeOther(`${url}/cancelled`, act);
      },
      (form) => this.drawnCancel(commission, garment, form),
    );
  }

  /** What a cancelled garment came to. */
  @Get('cancelled')
  async cancelled(@Param('commission') commissionId: string, @Param('garment') id: string): Promise<Reply> {
    const { garment, studio, words } = await this.frame(commissionId, id);
    const marks = standingMarks(await garmentMarkBook.ofGarment(this.read, id));
    const mark = marks.findLast(({ kind }) => kind === 'cancelled');
    if (!mark) throw new NotFound('cancelled garment');
    return page('commissions/cancelled/cancelled', {
      ...words,
      title: `What it came to: ${garment.name}`,
      said: `Cancelled on ${dateInWords(mark.on)} by ${mark.who}: ${mark.words}`,
      figures: figuresTable(await cancelledTold(this.read, this.clock, garment), studio.identity.locale),
      caution: CAUTION,
    });
  }

  @Get('uncollected')
  async uncollected(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
  ): Promise<Reply> {
    return shown(await this.drawnNotice(commission, garment));
  }

  @Post('uncollected')
  async keepNotice(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    const { studio, today, url } = await this.frame(commission, garment);
    return submit(
      typed,
      async () => {
        const said = parseForm(NoticeForm(studio, today), typed);
        mustHaveCome(said.on, today);
        const { act } = await keepNotice(this.unit, visit, garment, said);
        return seeOther(`${url}/uncollected`, act);
      },
      (form) => this.drawnNotice(commission, garment, form),
    );
  }

  @Get('notices/:mark.pdf')
  async notice(
    @Param('commission') commissionId: string,
    @Param('garment') id: string,
    @Param('mark') markId: string,
  ): Promise<Reply> {
    const { commission, studio } = await this.frame(commissionId, id);
    const mark = await garmentMarkBook.one(this.read, markId);
    if (mark.garmentId !== id || mark.kind !== 'notice') throw new NotFound('notice');
    const { identity } = studio;
    const client = await clientBook.one(this.read, commission.clientId);
    const { html, sheet } = printedSlip(
      this.templates,
      'commissions/cancelled/notice',
      studio.sheet,
      identity.name,
      {
        language: identity.locale,
        studio: identity.name,
        from: identity.address.split('\n').filter(Boolean),
        to: [client.name, ...envelopeOf(client)],
        date: dateInWords(mark.on),
        subject: commission.number,
        lines: mark.words.split('\n'),
      },
    );
    return file(
      await this.printer.print(html, sheet),
      'application/pdf',
      `notice-${commission.number}.pdf`,
      true,
    );
  }

  private async frame(commissionId: string, id: string) {
    const garment = await garmentIn(this.read, commissionId, id);
    const commission = await commissionBook.one(this.read, commissionId);
    const studio = await studioBook.the(this.read);
    const url = garmentUrl(commissionId, id);
    return {
      garment,
      commission,
      studio,
      url,
      today: todayIn(this.clock, studio.identity.zone),
      words: {
        room: 'commissions' as const,
        crumbs: [...commissionCrumbs(commission), { text: garment.name, href: url }],
        leave: { text: 'Back to the job sheet', href: url },
      },
    };
  }

  private async drawnCancel(commissionId: string, id: string, form?: FormModel): Promise<Drawn> {
    const { garment, studio, url, today, words } = await this.frame(commissionId, id);
    return {
      template: 'commissions/cancelled/cancel',
      words: {
        ...words,
        title: `Cancel: ${garment.name}`,
        form: { ...(form ?? freshForm('', { on: today })), action: `${url}/cancel` },
        figures: figuresTable(await cancelledTold(this.read, this.clock, garment), studio.identity.locale),
        caution: CAUTION,
      },
    };
  }

  private async drawnNotice(commissionId: string, id: string, form?: FormModel): Promise<Drawn> {
    const { garment, commission, studio, url, today, words } = await this.frame(commissionId, id);
    const client = await clientBook.one(this.read, commission.clientId);
    const marks = standingMarks(await garmentMarkBook.ofGarment(this.read, id));
    const worked = (await benchBook.ofGarment(this.read, id)).map(({ on }) => on).sort();
    const { owed } = await beforeHandOver(this.read, garment);
    const readySince = garment.dueOn && garment.dueOn < today ? garment.dueOn : worked.at(-1);
    const draft = draftNotice(garment, commission, {
      clientName: client.name,
      maker: studio.identity.maker,
      readySince,
      today,
      owed,
    });
    const dates = [
      ...(garment.dueOn ? [{ label: 'Was to be ready', text: dateInWords(garment.dueOn) }] : []),
      ...(worked.length > 0 ? [{ label: 'Last worked on', text: dateInWords(worked.at(-1)!) }] : []),
      ...marks
        .filter(({ kind }) => kind === 'notice')
        .map(({ id: mark, on, who }) => ({
          label: 'Notice written',
          text: dateInWords(on),
          href: `${url}/notices/${mark}.pdf`,
          note: who,
        })),
    ];
    return {
      template: 'commissions/cancelled/uncollected',
      words: {
        ...words,
        title: `Not collected: ${garment.name}`,
        form: { ...(form ?? freshForm('', { on: today, words: draft })), action: `${url}/uncollected` },
        dates,
        anyDates: dates.length > 0,
        caution: CAUTION,
      },
    };
  }
}

const shown = ({ template, words }: Drawn): Reply => page(template, words);
