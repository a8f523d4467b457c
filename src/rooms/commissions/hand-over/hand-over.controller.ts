import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { standingMarks } from '../../../domain/commissions/garment-mark.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { PdfPrinter } from '../../../printing/browser/pdf-printer.js';
import { printedSlip } from '../../../printing/papers/slips.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { Templates } from '../../../printing/templates/templates.js';
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
import { file, type PageWords, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { dateInWords } from '../../../web/words/dates.js';
import { commissionCrumbs, garmentUrl } from '../commission.page.js';
import { mustHaveCome } from '../cutting/cutting.form.js';
import { garmentIn } from '../garments/change-garment.js';
import { beforeHandOver } from './before-hand-over.js';
import { AftercareForm, HandOverForm } from './hand-over.form.js';
import { handOverGarment, handOverOf, noteAftercare } from './hand-over-garment.js';

const linesOf = (text: string): string[] => text.split('\n').filter((one) => one.trim() !== '');

/** Handing a garment over, the slip that is signed, and what is noted afterwards. */
@Controller('commissions/:commission/garments/:garment')
export class HandOverController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly templates: Templates,
    private readonly printer: PdfPrinter,
  ) {}

  @Get('hand-over')
  async ask(@Param('commission') commission: string, @Param('garment') garment: string): Promise<Reply> {
    const { template, words } = await this.drawn(commission, garment);
    return page(template, words);
  }

  @Post('hand-over')
  async handOver(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    await garmentIn(this.read, commission, garment);
    const { studio, today } = await this.house();
    return submit(
      typed,
      async () => {
        const said = parseForm(HandOverForm(studio, today), typed);
        mustHaveCome(said.on, today);
        const { act } = await handOverGarment(this.unit, visit, garment, said);
        return seeOther(garmentUrl(commission, garment), act);
      },
      (form) => this.drawn(commission, garment, form),
    );
  }

  @Get('hand-over.pdf')
  async slip(@Param('commission') commission: string, @Param('garment') id: string): Promise<Reply> {
    const garment = await garmentIn(this.read, commission, id);
    const handed = await handOverOf(this.read, id);
    if (!handed) throw new NotFound('hand-over of this garment');
    const { studio } = await this.house();
    const { identity } = studio;
    const { number } = await commissionBook.one(this.read, commission);
    const wearer = await clientBook.one(this.read, garment.wearerId);
    const { mark, said } = handed;
    const { html, sheet } = printedSlip(this.templates, 'commissions/hand-over/slip', 'A5', identity.name, {
      language: identity.locale,
      studio: identity.name,
      garment: garment.name,
      number: `${number}/${garment.place}`,
      wearer: wearer.name,
      date: dateInWords(mark.on),
      receivedBy: said.receivedBy,
      goesWith: [
        { label: 'Pieces of cloth', lines: linesOf(said.remnants) },
        { label: 'Spares', lines: linesOf(said.spares) },
        { label: 'Care', lines: linesOf(said.care) },
        { label: 'Notes', lines: linesOf(mark.words) },
      ].filter(({ lines }) => lines.length > 0),
    });
    const bytes = await this.printer.print(html, sheet);
    return file(bytes, 'application/pdf', `hand-over-${number}-${garment.place}.pdf`, true);
  }

  @Get('aftercare')
  async aftercare(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
  ): Promise<Reply> {
    const { template, words } = await this.drawnAftercare(commission, garment);
    return page(template, words);
  }

  @Post('aftercare')
  async note(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    await garmentIn(this.read, commission, garment);
    const { studio, today } = await this.house();
    return submit(
      typed,
      async () => {
        const said = parseForm(AftercareForm(studio, today), typed);
        mustHaveCome(said.on, today);
        const { act } = await noteAftercare(this.unit, visit, garment, said);
        return seeOther(`${garmentUrl(commission, garment)}/aftercare`, act);
      },
      (form) => this.drawnAftercare(commission, garment, form),
    );
  }

  private async house() {
    const studio = await studioBook.the(this.read);
    return { studio, today: todayIn(this.clock, studio.identity.zone) };
  }

  private async frame(commissionId: string, id: string) {
    const garment = await garmentIn(this.read, commissionId, id);
    const commission = await commissionBook.one(this.read, commissionId);
    const url = garmentUrl(commissionId, id);
    return {
      garment,
      commission,
      url,
      room: 'commissions' as const,
      crumbs: [...commissionCrumbs(commission), { text: garment.name, href: url }],
      leave: { text: 'Back to the job sheet', href: url },
    };
  }

  private async drawn(
    commissionId: string,
    id: string,
    form?: FormModel,
  ): Promise<{ template: string; words: PageWords }> {
    const { garment, commission, url, ...frame } = await this.frame(commissionId, id);
    const before = await beforeHandOver(this.read, garment);
    const { today } = await this.house();
    const client = await clientBook.one(this.read, commission.clientId);
    const fresh = freshForm('', {
      on: today,
      remnants: before.remnants,
      care: before.care,
      receivedBy: client.name,
    });
    return {
      template: 'commissions/hand-over/hand-over',
      words: {
        title: `Hand over: ${garment.name}`,
        ...frame,
        form: { ...(form ?? fresh), action: `${url}/hand-over` },
        balance: before.balance,
        open: before.open,
        invoices: `/commissions/${commissionId}/invoices`,
      },
    };
  }

  private async drawnAftercare(
    commissionId: string,
    id: string,
    form?: FormModel,
  ): Promise<{ template: string; words: PageWords }> {
    const { garment, commission: _, url, ...frame } = await this.frame(commissionId, id);
    const { today } = await this.house();
    const notes = standingMarks(await garmentMarkBook.ofGarment(this.read, id)).filter(
      ({ kind }) => kind === 'aftercare',
    );
    return {
      template: 'commissions/hand-over/aftercare',
      words: {
        title: `Aftercare: ${garment.name}`,
        ...frame,
        form: { ...(form ?? freshForm('', { on: today })), action: `${url}/aftercare` },
        notes: notes.map(({ on, who, words }) => ({ day: dateInWords(on), who, words })),
        small: `/commissions/${commissionId}/garments/new`,
      },
    };
  }
}
