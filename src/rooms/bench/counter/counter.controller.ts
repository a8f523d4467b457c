import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { PdfPrinter } from '../../../printing/browser/pdf-printer.js';
import { printedSlip } from '../../../printing/papers/slips.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { Templates } from '../../../printing/templates/templates.js';
import { counterBook } from '../../../storage/books/counter/counter-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { typedKit } from '../../../web/fields/kits.js';
import { freshForm, submit, versionSeen } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { counterPrices } from '../../../web/rates/counter-prices.js';
import { file, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import {
  CollectedFields,
  CounterFields,
  PlainCounterFields,
  ReadyFields,
  readTyped,
  tidyJobs,
  typedTicket,
} from './counter.form.js';
import {
  type CounterManner,
  counterFormPage,
  counterPage,
  counterPaper,
  counterTicketPage,
  counterUrl,
} from './counter.page.js';
import { correctTicket, markCollected, markReady, takeIn } from './keep-ticket.js';

/** Work over the counter, with a ticket. Prices show only to who may see them. */
@Controller('bench/counter')
export class CounterController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly templates: Templates,
    private readonly printer: PdfPrinter,
  ) {}

  @Get()
  async all(@Hand() hand: SignedIn, @Query('after') after = ''): Promise<Reply> {
    const here = await counterBook.here(this.read);
    const gone = await counterBook.list(this.read, 30, after, '', true);
    return page('bench/counter/list', counterPage(here, gone, await this.manner(hand), after));
  }

  @Get('new')
  async form(@Hand() hand: SignedIn): Promise<Reply> {
    const { today } = await this.manner(hand);
    const { template, words } = await this.drawn(freshForm('', { cameOn: today }), hand);
    return page(template, words);
  }

  @Post()
  takeIn(@Body() body: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    const typed = tidyJobs(typedOf(body));
    return submit(
      typed,
      async () => {
        const { identity } = await this.manner(hand);
        const said = readTyped(CounterFields(typedKit(identity), hand.seesPrices), typed, true);
        const { value, act } = await takeIn(this.unit, hand, this.clock, said, hand.seesPrices);
        return seeOther(counterUrl(value.id), act);
      },
      (form) => this.drawn(form, hand),
    );
  }

  @Get(':id')
  async one(@Param('id') id: string, @Hand() hand: SignedIn): Promise<Reply> {
    const { today } = await this.manner(hand);
    const ticket = await counterBook.one(this.read, id);
    const values = { readyOn: today, collectedOn: today, collectedBy: ticket.name };
    const { template, words } = await this.ticket(id, freshForm('', values, ticket.version), hand);
    return page(template, words);
  }

  @Get(':id/ticket.pdf')
  async pdf(@Param('id') id: string, @Hand() hand: SignedIn): Promise<Reply> {
    const manner = await this.manner(hand);
    const ticket = await counterBook.one(this.read, id);
    const { tax } = await studioBook.the(this.read);
    const { html, sheet } = printedSlip(
      this.templates,
      'bench/counter/ticket-paper',
      'A6',
      manner.identity.name,
      counterPaper(ticket, manner, tax.registered),
    );
    return file(await this.printer.print(html, sheet), 'application/pdf', `${ticket.number}.pdf`, true);
  }

  @Post(':id/ready')
  ready(@Param('id') id: string, @Body() body: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(ReadyFields, typed);
        const { act } = await markReady(this.unit, hand, id, said, versionSeen(typed));
        return seeOther(counterUrl(id), act);
      },
      (form) => this.ticket(id, form, hand),
    );
  }

  @Post(':id/collected')
  collected(@Param('id') id: string, @Body() body: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(CollectedFields, typed);
        const { act } = await markCollected(this.unit, hand, id, said, versionSeen(typed));
        return seeOther(counterUrl(id), act);
      },
      (form) => this.ticket(id, form, hand),
    );
  }

  @Get(':id/edit')
  async editForm(@Param('id') id: string, @Hand() hand: SignedIn): Promise<Reply> {
    const kept = await counterBook.one(this.read, id);
    const { identity } = await this.manner(hand);
    const form = freshForm('', typedTicket(kept, identity.locale, hand.seesPrices), kept.version);
    const { template, words } = await this.drawn(form, hand, kept.id);
    return page(template, words);
  }

  @Post(':id/edit')
  edit(@Param('id') id: string, @Body() body: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    const typed = tidyJobs(typedOf(body));
    return submit(
      typed,
      async () => {
        const { identity } = await this.manner(hand);
        const said = hand.seesPrices
          ? readTyped(CounterFields(typedKit(identity), true), typed, true)
          : readTyped(PlainCounterFields, typed, false);
        const seen = versionSeen(typed);
        const { act } = await correctTicket(this.unit, hand, this.clock, id, said, seen);
        return seeOther(counterUrl(id), act);
      },
      (form) => this.drawn(form, hand, id),
      async () => {
        const { identity } = await this.manner(hand);
        return typedTicket(await counterBook.one(this.read, id), identity.locale, hand.seesPrices);
      },
    );
  }

  private async manner({ seesPrices }: SignedIn): Promise<CounterManner> {
    const { identity } = await studioBook.the(this.read);
    return { identity, today: todayIn(this.clock, identity.zone), seesPrices };
  }

  private async drawn(form: FormModel, hand: SignedIn, id?: string) {
    const kept = id ? await counterBook.one(this.read, id) : undefined;
    return counterFormPage(form, await counterPrices(this.read, this.clock), await this.manner(hand), kept);
  }

  private async ticket(id: string, form: FormModel, hand: SignedIn) {
    return counterTicketPage(form, await counterBook.one(this.read, id), await this.manner(hand));
  }
}
