import { Body, Controller, Get, Headers, Param, Post, Put } from '@nestjs/common';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { fittingBook } from '../../../storage/books/fitting/fitting-book.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { presentAs } from '../../../web/api/present-as.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../../web/forms/version.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { HeldSent, NotHeldSent, PlannedSent } from './fitting.form.js';
import { fittingIn, holdFitting, moveFitting, notHeldFitting, planFitting } from './keep-fitting.js';

const PLANNED = {
  baste: {
    kind: 'baste',
    on: '2026-03-12',
    at: '14:30',
    minutes: 45,
    garmentIds: ['0190c0de-0000-7000-8000-000000000001'],
    notes: 'Bring the brown shoes.',
  },
};
const HELD = {
  held: {
    on: '2026-03-12',
    present: 'A friend of the wearer',
    worn: 'Brown shoes, thick shirt',
    corrections: [
      {
        garmentId: '0190c0de-0000-7000-8000-000000000001',
        place: 'left shoulder',
        direction: 'raise',
        amount: '1/4 in',
      },
    ],
    patternChanged: true,
    patternWords: 'Left shoulder raised by a quarter of an inch',
    nextOn: '2026-03-26',
    nextAt: '14:30',
    nextKind: 'forward',
  },
};
const NOT_HELD = {
  missed: {
    state: 'missed',
    reason: 'The bridge was shut.',
    nextOn: '2026-03-19',
    nextAt: '10:00',
    nextKind: 'baste',
  },
};

/** Fittings for programs. */
@Controller('api/commissions/:commission/fittings')
export class FittingsApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  @Describe({ summary: 'The fittings of a commission, by day and time' })
  async list(@Param('commission') commission: string): Promise<Reply> {
    await commissionBook.one(this.read, commission);
    return answer({ items: await fittingBook.ofCommission(this.read, commission) });
  }

  @Post()
  @Describe({
    summary: 'Plans a fitting',
    description: 'Where another is planned at that time, send `besideAnother: true` if both are meant.',
    examples: PLANNED,
  })
  async plan(
    @Param('commission') commission: string,
    @Body({ schema: PlannedSent }) body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { value } = await planFitting(this.unit, visit, commission, parse(PlannedSent, body));
    return created(`/api/commissions/${commission}/fittings/${value.id}`, value);
  }

  @Get(':fitting')
  @Describe({ summary: 'One fitting with its corrections' })
  async one(@Param('commission') commission: string, @Param('fitting') id: string): Promise<Reply> {
    const fitting = await fittingIn(this.read, commission, id);
    const corrections = await fittingBook.corrections(this.read, id);
    return answer({ ...fitting, corrections }, 200, etagOf(fitting.version));
  }

  @Put(':fitting')
  @Describe({ summary: 'Moves a planned fitting', examples: PLANNED })
  async move(
    @Param('commission') commission: string,
    @Param('fitting') id: string,
    @Body({ schema: PlannedSent }) body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const said = parse(PlannedSent, body);
    return this.changed(commission, id, () =>
      moveFitting(this.unit, visit, id, said, versionOfIfMatch(match)),
    );
  }

  @Put(':fitting/held')
  @Describe({
    summary: 'Keeps what a fitting showed, or corrects what was kept of it',
    description: 'Corrections stand in the place of those there were. A next day plans the next fitting.',
    examples: HELD,
  })
  async hold(
    @Param('commission') commission: string,
    @Param('fitting') id: string,
    @Body({ schema: HeldSent }) body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const said = parse(HeldSent, body);
    return this.changed(commission, id, () =>
      holdFitting(this.unit, visit, this.clock, id, said, versionOfIfMatch(match)),
    );
  }

  @Put(':fitting/not-held')
  @Describe({ summary: 'Says that a fitting was missed or put off', examples: NOT_HELD })
  async notHeld(
    @Param('commission') commission: string,
    @Param('fitting') id: string,
    @Body({ schema: NotHeldSent }) body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const said = parse(NotHeldSent, body);
    return this.changed(commission, id, () =>
      notHeldFitting(this.unit, visit, id, said, versionOfIfMatch(match)),
    );
  }

  private async changed(commission: string, id: string, act: () => Promise<unknown>): Promise<Reply> {
    await fittingIn(this.read, commission, id);
    await presentAs(() => this.one(commission, id), act);
    return this.one(commission, id);
  }
}
