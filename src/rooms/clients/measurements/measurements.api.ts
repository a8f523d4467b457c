import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { dimensionBook } from '../../../storage/books/measuring/dimension-book.js';
import { type KeptSet, measurementBook } from '../../../storage/books/measuring/measurement-book.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { parse } from '../../../web/forms/parse.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { layOutDesk } from './desk.js';
import { MeasurementFields } from './measurement.form.js';
import { standing } from './standing.js';
import { takeMeasurements } from './take-measurements.js';
import { changesIn } from './through-time.js';

/** Measurements for programs. */
@Controller('api')
export class MeasurementsApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  /** What the studio measures, with the short names that a set uses. */
  @Get('body-dimensions')
  async dimensions(): Promise<Reply> {
    return answer({ items: await dimensionBook.all(this.read) });
  }

  /** Every set, newest first. */
  @Get('clients/:id/measurements')
  async all(@Param('id') id: string): Promise<Reply> {
    const { sets } = await layOutDesk(this.read, this.clock, id);
    return answer({ items: [...sets].reverse().map((set) => told(sets, set)) });
  }

  @Get('clients/:id/measurements/:set')
  async one(@Param('id') id: string, @Param('set') setId: string): Promise<Reply> {
    const set = await measurementBook.one(this.read, id, setId);
    return answer(told(await measurementBook.ofClient(this.read, id), set));
  }

  @Post('clients/:id/measurements')
  async take(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const words = parse(MeasurementFields, body);
    const { value } = await takeMeasurements(this.unit, visit, this.clock, id, words);
    const sets = await measurementBook.ofClient(this.read, id);
    return created(`/api/clients/${id}/measurements/${value.id}`, told(sets, value));
  }
}

const told = (sets: readonly KeptSet[], set: KeptSet): object => {
  const { wearer, values, insteadOf, ...said } = set;
  const changes = changesIn(sets, set);
  return {
    ...said,
    client: wearer,
    insteadOf: insteadOf ?? null,
    stands: standing(sets).some(({ id }) => id === set.id),
    values: values.map(({ dimension, entry, confirmed }) => {
      const change = changes.find((one) => one.dimension === dimension);
      const difference =
        change?.mm === undefined ? null : { mm: change.mm, shown: change.shown, since: change.since };
      return { dimension, ...entry, note: entry.note ?? null, confirmed, difference };
    }),
  };
};
