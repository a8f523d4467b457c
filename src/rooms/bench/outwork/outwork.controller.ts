import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { PdfPrinter } from '../../../printing/browser/pdf-printer.js';
import { printedSlip } from '../../../printing/papers/slips.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { Templates } from '../../../printing/templates/templates.js';
import { garmentsToCharge } from '../../../storage/books/money-out/garments-to-charge.js';
import { outworkBook } from '../../../storage/books/outwork/outwork-book.js';
import { outworkerBook } from '../../../storage/books/outwork/outworker-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { typedKit } from '../../../web/fields/kits.js';
import { freshForm, submit, versionSeen } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { file, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import { mayGo } from '../../../web/who-may.js';
import { countInWords } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';
import { bringBackOutwork, checkBack, correctOutwork, sendOut } from './keep-outwork.js';
import {
  BackFields,
  CheckedFields,
  CorrectedFields,
  OutworkFields,
  PlainCorrectedFields,
  PlainOutworkFields,
  typedTicket,
} from './outwork.form.js';
import { outworkPage, ticketFormPage, ticketPage, ticketUrl } from './outwork.page.js';
import { outworkTold } from './outwork-told.js';

/** Work that goes out of the house, and comes back. Prices show only to who may see them. */
@Controller('bench/outwork')
export class OutworkController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly templates: Templates,
    private readonly printer: PdfPrinter,
  ) {}

  @Get()
  async all(@Hand() hand: SignedIn, @Query('after') after = ''): Promise<Reply> {
    const out = await outworkBook.out(this.read);
    const list = await outworkBook.list(this.read, 30, after);
    const told = await outworkTold(this.read, this.clock, hand, [...out, ...list.items]);
    return page('bench/outwork/list', outworkPage(out, list, told, after));
  }

  @Get('new')
  async form(@Hand() hand: SignedIn, @Query('garment') garment = ''): Promise<Reply> {
    const form = freshForm('', { garment, pieces: '1', outOn: await this.today() });
    const { template, words } = await this.drawn(form, hand);
    return page(template, words);
  }

  @Post()
  send(@Body() body: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const fields = hand.seesPrices ? OutworkFields(typedKit(await this.identity())) : PlainOutworkFields;
        const { value, act } = await sendOut(this.unit, hand, parseForm(fields, typed));
        return seeOther(ticketUrl(value.id), act);
      },
      (form) => this.drawn(form, hand),
    );
  }

  @Get(':id')
  async one(@Param('id') id: string, @Hand() hand: SignedIn): Promise<Reply> {
    const today = await this.today();
    const { version } = await outworkBook.one(this.read, id);
    const { template, words } = await this.ticket(
      id,
      freshForm('', { backOn: today, checkedOn: today }, version),
      hand,
    );
    return page(template, words);
  }

  @Get(':id/ticket.pdf')
  async pdf(@Param('id') id: string): Promise<Reply> {
    const ticket = await outworkBook.one(this.read, id);
    const outworker = await outworkerBook.one(this.read, ticket.outworkerId);
    const { name, locale } = await this.identity();
    const { html, sheet } = printedSlip(this.templates, 'bench/outwork/ticket-paper', 'A6', name, {
      language: locale,
      studio: name,
      number: ticket.number,
      to: outworker.name,
      work: ticket.work,
      pieces: countInWords(ticket.pieces, 'piece'),
      garment: ticket.garmentName,
      out: dateInWords(ticket.outOn),
      due: ticket.dueOn ? dateInWords(ticket.dueOn) : '',
      notes: ticket.notes,
    });
    return file(await this.printer.print(html, sheet), 'application/pdf', `${ticket.number}.pdf`, true);
  }

  @Post(':id/back')
  back(@Param('id') id: string, @Body() body: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(BackFields, typed);
        const { act } = await bringBackOutwork(this.unit, hand, id, said, versionSeen(typed));
        return seeOther(ticketUrl(id), act);
      },
      (form) => this.ticket(id, form, hand),
    );
  }

  @Post(':id/checked')
  checked(@Param('id') id: string, @Body() body: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(CheckedFields, typed);
        const { act } = await checkBack(this.unit, hand, id, said, versionSeen(typed));
        return seeOther(ticketUrl(id), act);
      },
      (form) => this.ticket(id, form, hand),
    );
  }

  @Get(':id/edit')
  async editForm(@Param('id') id: string, @Hand() hand: SignedIn): Promise<Reply> {
    const kept = await outworkBook.one(this.read, id);
    const { locale } = await this.identity();
    const form = freshForm('', typedTicket(kept, locale, hand.seesPrices), kept.version);
    const { template, words } = await this.drawn(form, hand, id);
    return page(template, words);
  }

  @Post(':id/edit')
  edit(@Param('id') id: string, @Body() body: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const fields = hand.seesPrices
          ? CorrectedFields(typedKit(await this.identity()))
          : PlainCorrectedFields;
        const said = parseForm(fields, typed);
        const { act } = await correctOutwork(this.unit, hand, id, said, versionSeen(typed));
        return seeOther(ticketUrl(id), act);
      },
      (form) => this.drawn(form, hand, id),
      async () =>
        typedTicket(await outworkBook.one(this.read, id), (await this.identity()).locale, hand.seesPrices),
    );
  }

  private async identity() {
    return (await studioBook.the(this.read)).identity;
  }

  private async today() {
    return todayIn(this.clock, (await this.identity()).zone);
  }

  private async drawn(form: FormModel, { seesPrices }: SignedIn, id?: string) {
    const offers = {
      outworkers: await outworkerBook.all(this.read),
      garments: await garmentsToCharge(this.read),
      seesPrices,
      currency: (await this.identity()).currency,
    };
    return ticketFormPage(form, offers, id ? await outworkBook.one(this.read, id) : undefined);
  }

  private async ticket(id: string, form: FormModel, hand: SignedIn) {
    const ticket = await outworkBook.one(this.read, id);
    const outworker = await outworkerBook.one(this.read, ticket.outworkerId);
    const told = await outworkTold(this.read, this.clock, hand, [ticket]);
    return ticketPage(form, ticket, outworker, {
      ...told,
      mayPay: mayGo(hand, 'GET', '/papers/money-out'),
      mayOpen: mayGo(hand, 'GET', '/commissions'),
    });
  }
}
