import { Body, Controller, Delete, Get, Param, Post } from '@nestjs/common';
import { standingMarks } from '../../../domain/commissions/garment-mark.js';
import { Conflict } from '../../../domain/kernel/errors.js';
import { readReckoning } from '../../../domain/reckoning/frozen-reckoning.js';
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
import { closeGarment, reopenGarment } from './close-garment.js';
import { reckoningTold } from './gather-reckoning.js';
import { ReckoningSent, ReopenFields } from './reckoning.form.js';

/** The reckoning of a garment, for programs. */
@Controller('api/garments/:garment/reckoning')
export class ReckoningApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  @Describe({
    summary: 'The frozen reckoning of a closed garment; of an open one as it would be frozen now',
    description: 'quotedProfit + Σ bridge = actualProfit to the minor unit; favourable amounts are positive.',
  })
  async look(@Param('garment') id: string): Promise<Reply> {
    await garmentBook.one(this.read, id);
    const closed = standingMarks(await garmentMarkBook.ofGarment(this.read, id)).find(
      ({ kind }) => kind === 'closed',
    );
    const frozen = closed && readReckoning(closed.document);
    if (closed && frozen) return answer({ closed: true, closedOn: closed.on, ...frozen });
    const today = todayIn(this.clock, (await studioBook.the(this.read)).identity.zone);
    const found = await reckoningTold(this.read, this.clock, id, { unwritten: 'as-planned' }, today);
    if (!found) throw new Conflict('What an hour costs is not said yet: begin in Rates.', 'no-rates');
    return answer({ closed: false, ...found.frozen });
  }

  @Post()
  @Describe({
    summary: 'Close a garment: its figures are frozen and teach from then on',
    description:
      '`price` is what was asked in the end, before tax; the agreed one when left out. `unwritten` says how planned materials and expenses count of which nothing was written down.',
    examples: {
      'all as planned': { unwritten: 'as-planned', words: 'A quiet job.' },
      'with goodwill': { price: '1180.00' },
    },
  })
  async close(@Param('garment') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { currency } = (await studioBook.the(this.read)).identity;
    const { words, ...choices } = parse(ReckoningSent(currency), body ?? {});
    const { value } = await closeGarment(this.unit, this.clock, visit, id, choices, words);
    return created(`/api/garments/${id}/reckoning`, {
      id: value.id,
      closedOn: value.on,
      ...readReckoning(value.document),
    });
  }

  @Delete()
  @Describe({
    summary: 'Open a closed garment again, with the reason',
    examples: { late: { reason: 'A bill came late' } },
  })
  async reopen(@Param('garment') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { reason } = parse(ReopenFields, body ?? {});
    const { value } = await reopenGarment(this.unit, visit, id, reason);
    return answer({ id: value.id, of: value.of });
  }
}
