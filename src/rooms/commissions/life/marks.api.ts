import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import {
  type GarmentMark,
  garmentStanding,
  standingMarks,
} from '../../../domain/commissions/garment-mark.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { parse } from '../../../web/forms/parse.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { cancelGarment, cancelledTold, keepNotice } from '../cancelled/cancel-garment.js';
import { CancelSent, NoticeSent } from '../cancelled/cancelled.form.js';
import { cutGarment } from '../cutting/cut-garment.js';
import { CuttingSent, mustHaveCome } from '../cutting/cutting.form.js';
import { AftercareSent, HandOverSent } from '../hand-over/hand-over.form.js';
import { handOverGarment, noteAftercare } from '../hand-over/hand-over-garment.js';
import { ReasonFields } from './marks.controller.js';
import { takeBackMark } from './take-back-mark.js';

const DAY = '2026-03-02';

/** What happened to a garment, for programs: cut, handed over, cancelled, and each taken back. */
@Controller('api/garments/:garment')
export class MarksApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get('marks')
  @Describe({ summary: 'Where a garment stands, and every mark on it, those taken back included.' })
  async marks(@Param('garment') id: string): Promise<Reply> {
    await garmentBook.one(this.read, id);
    const marks = await garmentMarkBook.ofGarment(this.read, id);
    const stands = new Set(standingMarks(marks).map((mark) => mark.id));
    return answer({
      standing: garmentStanding(marks),
      items: marks.map((mark) => ({ ...inJson(mark), stands: stands.has(mark.id) })),
    });
  }

  @Post('cut')
  @Describe({
    summary: 'Records that a garment was cut; freezes its wearer’s newest measurements with it.',
    examples: {
      'all settled': {
        on: DAY,
        measurements: { isSo: true },
        cloth: { isSo: true },
        deposit: { isSo: false, words: 'Paid at the fitting tomorrow' },
        quote: { isSo: true },
      },
    },
  })
  async cut(@Param('garment') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const said = parse(CuttingSent, body);
    await this.mustHaveCome(said.on);
    return this.made(id, (await cutGarment(this.unit, visit, id, said)).value);
  }

  @Post('hand-over')
  @Describe({
    summary: 'Records that a garment was handed over, with what went with it.',
    examples: { 'with spares': { on: DAY, receivedBy: 'Corvin Haddlestone', spares: 'Two horn buttons' } },
  })
  async handOver(@Param('garment') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const said = parse(HandOverSent, body);
    await this.mustHaveCome(said.on);
    return this.made(id, (await handOverGarment(this.unit, visit, id, said)).value);
  }

  @Post('aftercare')
  @Describe({
    summary: 'Adds a note after the hand-over; it opens nothing again.',
    examples: { 'a loose button': { on: DAY, words: 'Cuff button sewn on again while he waited' } },
  })
  async aftercare(@Param('garment') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const said = parse(AftercareSent, body);
    await this.mustHaveCome(said.on);
    return this.made(id, (await noteAftercare(this.unit, visit, id, said)).value);
  }

  @Post('cancel')
  @Describe({
    summary: 'Cancels a garment; what it cost stays on record.',
    examples: { 'after the first fitting': { on: DAY, words: 'The wedding was called off' } },
  })
  async cancel(@Param('garment') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const said = parse(CancelSent, body);
    await this.mustHaveCome(said.on);
    return this.made(id, (await cancelGarment(this.unit, visit, id, said)).value);
  }

  @Get('cost-to-date')
  @Describe({
    summary:
      'What a garment has cost so far, beside the agreed price and each percentage the terms name: figures only.',
  })
  async costToDate(@Param('garment') id: string): Promise<Reply> {
    const told = await cancelledTold(this.read, this.clock, await garmentBook.one(this.read, id));
    return answer({
      ...told,
      figures: told.figures ?? null,
      agreedPrice: told.agreedPrice ?? null,
      quoteName: told.quoteName || null,
    });
  }

  @Post('notice')
  @Describe({
    summary: 'Keeps a notice about a garment that nobody collected, with its words.',
    examples: { 'a first notice': { on: DAY, words: 'Your coat is ready and waits for you.' } },
  })
  async notice(@Param('garment') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const said = parse(NoticeSent, body);
    await this.mustHaveCome(said.on);
    return this.made(id, (await keepNotice(this.unit, visit, id, said)).value);
  }

  @Post('marks/:mark/take-back')
  @Describe({
    summary: 'Takes a mark back with a reason; both stay on record.',
    examples: { 'the wrong garment': { reason: 'It was the waistcoat that was cut' } },
  })
  async takeBack(
    @Param('garment') id: string,
    @Param('mark') mark: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { reason } = parse(ReasonFields, body);
    return this.made(id, (await takeBackMark(this.unit, visit, id, mark, reason)).value);
  }

  private async mustHaveCome(on: CalendarDate): Promise<void> {
    const { identity } = await studioBook.the(this.read);
    mustHaveCome(on, todayIn(this.clock, identity.zone));
  }

  private made(garmentId: string, mark: GarmentMark): Reply {
    return created(`/api/garments/${garmentId}/marks`, inJson(mark));
  }
}

const inJson = ({ document, of, operationId, ...mark }: GarmentMark): object => ({
  ...mark,
  operationId: operationId ?? null,
  takesBack: of ?? null,
  document: document === '' ? null : (JSON.parse(document) as unknown),
});
