import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { NotFound } from '../../../domain/kernel/errors.js';
import { PdfPrinter } from '../../../printing/browser/pdf-printer.js';
import type { MeasurementCard } from '../../../printing/papers/measurement-card.js';
import { Stationery } from '../../../printing/papers/stationery.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { measurementBook } from '../../../storage/books/measuring/measurement-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { typedOf } from '../../../web/forms/typed.js';
import { file, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { blankCardOf, type CardHouse, cardOfSet } from './card-of-set.js';
import { layOutDesk } from './desk.js';
import type { Question } from './read-values.js';
import { setPage, setsPage } from './set.page.js';
import { inFormWords } from './take.form.js';
import { againForm, type MeasuringDesk, newSetForm, setUrl, takePage } from './take.page.js';
import { takeMeasurements } from './take-measurements.js';

/** A client's measurements: taking them, looking at them, and the card. */
@Controller('clients/:id/measurements')
export class MeasurementsController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly stationery: Stationery,
    private readonly printer: PdfPrinter,
  ) {}

  @Get()
  async all(@Param('id') id: string): Promise<Reply> {
    return page('clients/measurements', setsPage(await this.desk(id)));
  }

  @Get('new')
  async measure(
    @Param('id') id: string,
    @Hand() visit: Visit,
    @Query('type') type = '',
    @Query('again') again = '',
  ): Promise<Reply> {
    const desk = await this.desk(id);
    const mends = again ? await measurementBook.one(this.read, id, again) : undefined;
    return this.drawn(desk, mends ? againForm(desk, mends) : newSetForm(desk, visit.who.name, type));
  }

  /** Another list for the set being taken; nothing is kept yet, and what was typed stays. */
  @Post('list')
  async otherList(@Param('id') id: string, @Body() body: unknown): Promise<Reply> {
    const { once: _, ...values } = typedOf(body);
    return this.drawn(await this.desk(id), freshForm('', values));
  }

  @Post()
  take(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const questions = new Map<string, Question>();
    return submit(
      typed,
      async () => {
        const { value, act } = await inFormWords(typed, questions, (words) =>
          takeMeasurements(this.unit, visit, this.clock, id, words),
        );
        return seeOther(setUrl(value), act);
      },
      async (form) => takePage(await this.desk(id), form, questions),
    );
  }

  @Get('blank.pdf')
  async blank(@Param('id') id: string, @Query('type') asked = ''): Promise<Reply> {
    const desk = await this.desk(id);
    const type = desk.types.find((one) => one.id === asked);
    if (!type) throw new NotFound('garment type');
    return this.printed(blankCardOf(desk.known, type, await this.house()), `measurements-${type.id}.pdf`);
  }

  @Get(':set')
  async one(@Param('id') id: string, @Param('set') setId: string): Promise<Reply> {
    const set = await measurementBook.one(this.read, id, setId);
    return page('clients/measurement-set', setPage(await this.desk(id), set));
  }

  @Get(':set/card.pdf')
  async card(@Param('id') id: string, @Param('set') setId: string): Promise<Reply> {
    const set = await measurementBook.one(this.read, id, setId);
    const desk = await this.desk(id);
    const name = `measurements-${desk.client.code}-${set.takenOn}.pdf`;
    return this.printed(cardOfSet(desk, set, await this.house()), name);
  }

  private desk(id: string): Promise<MeasuringDesk> {
    return layOutDesk(this.read, this.clock, id);
  }

  private async house(): Promise<CardHouse> {
    const { identity } = await studioBook.the(this.read);
    return { studio: identity.name, language: identity.locale };
  }

  private drawn(desk: MeasuringDesk, form: FormModel): Reply {
    const { template, words } = takePage(desk, form);
    return page(template, words);
  }

  private async printed(card: MeasurementCard, name: string): Promise<Reply> {
    const { html, sheet } = this.stationery.card(card);
    return file(await this.printer.print(html, sheet), 'application/pdf', name, true);
  }
}
