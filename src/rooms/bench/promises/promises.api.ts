import { Body, Controller, Delete, Get, Param, Post, Query } from '@nestjs/common';
import { promisedByWeek } from '../../../domain/estimating/promise/by-week.js';
import type { Simulated } from '../../../domain/estimating/promise/simulate.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { parse } from '../../../web/forms/parse.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import { closeDays, openAgain, type WouldMove } from './close-days.js';
import { lettersOf } from './letters.js';
import { mustSeeJobs, PromiseDesk } from './promise-desk.js';
import { CloseFields, RushSent, SpanFields } from './promises.form.js';
import { RUSH, takeRush } from './rush.js';

const datesIn = (dates: Simulated, ref: string): Record<string, string> =>
  Object.fromEntries([0.5, 0.8, 0.9].map((q) => [String(q), dates.at(ref, q)]));

const inJson = ({ one: { garment, dueOn }, before, after, isLate }: WouldMove): object => ({
  garmentId: garment.id,
  name: garment.name,
  commissionNumber: garment.commissionNumber,
  promised: dueOn ?? null,
  before,
  after,
  afterThePromise: isLate,
});

const WEEK = { from: '2026-03-09', to: '2026-03-15', words: 'ill' };

/** Promises for programs. Nothing of it shows a price. */
@Controller('api/promises')
export class PromisesApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly desk: PromiseDesk,
  ) {}

  @Get()
  @Describe({
    summary: 'What is promised and what can be kept: dates by certainty, hours by week, closed days',
    description:
      'Dates are null where no weekly hours are known. Minutes are unrounded; `chance` is of being ready by the promised day.',
  })
  async promises(): Promise<Reply> {
    const backlog = await this.desk.backlog();
    const { dates, trouble } = await this.desk.dates(backlog);
    const promised = backlog.works.flatMap(({ dueOn, left }) =>
      dueOn ? [{ dueOn, minutes: left.fourInFive as number }] : [],
    );
    const spans = await this.desk.spans(backlog.today);
    return answer({
      today: backlog.today,
      trouble: trouble || null,
      week: backlog.weekly,
      garments: backlog.works.map(({ garment, dueOn, left, work }) => ({
        garmentId: garment.id,
        name: garment.name,
        commissionNumber: garment.commissionNumber,
        promised: dueOn ?? null,
        minutesLeft: { '0.5': left.even, '0.8': left.fourInFive },
        fittings: work.gaps,
        dates: dates ? datesIn(dates, garment.id) : null,
        chance: dates && dueOn ? dates.chanceBy(garment.id, dueOn) : null,
      })),
      byWeek: dates ? promisedByWeek(promised, backlog.calendar, 26).weeks : [],
      closedDays: spans.map(({ id, from, to, words, days }) => ({ id, from, to, words, days })),
    });
  }

  @Get('rush')
  @Describe({
    summary: 'If this garment were taken: its dates, and which promises move at 4 in 5',
    description:
      '`typeId`, `make`, `minutes` (left out: the usual plan) and `before`, the id of a garment or `last`.',
  })
  async rush(@Query() query: unknown): Promise<Reply> {
    const said = parse(RushSent, query);
    const backlog = await this.desk.backlog();
    const before = await this.desk.sureDates(backlog);
    const told = await takeRush(this.read, backlog, before, { ...said, minutes: said.minutes });
    return answer({
      plannedMinutes: told.plannedMinutes,
      fittings: told.fittings,
      dates: datesIn(told.dates, RUSH),
      moved: told.moved.map(({ ref, before: was, after }) => ({ garmentId: ref, before: was, after })),
    });
  }

  @Post('closed-days/look')
  @Describe({ summary: 'Which promises would move if these days were closed', examples: { ill: WEEK } })
  async look(@Body({ schema: SpanFields }) body: unknown): Promise<Reply> {
    const { moves } = await this.desk.look(await this.desk.backlog(), parse(SpanFields, body));
    return answer({ moves: moves.map(inJson) });
  }

  @Post('closed-days')
  @Describe({
    summary: 'Close these days and move the named promises, in one act',
    description: 'The letters then lie ready at `/api/promises/letters/{id}`.',
    examples: { ill: { ...WEEK, move: [] } },
  })
  async close(@Body({ schema: CloseFields }) body: unknown, @Hand() hand: SignedIn): Promise<Reply> {
    mustSeeJobs(hand);
    const { move, ...said } = parse(CloseFields, body);
    const moves = move.map(({ garmentId, dueOn, version }) => ({ garmentId, dueOn, seen: version }));
    const { value } = await closeDays(this.unit, hand, this.clock, said, moves);
    return created(`/api/promises/letters/${value}`, await this.told(value));
  }

  @Delete('closed-days/:span')
  @Describe({ summary: 'Open these days again; promises that moved stay where they are' })
  async open(@Param('span') span: string, @Hand() hand: SignedIn): Promise<Reply> {
    mustSeeJobs(hand);
    await openAgain(this.unit, hand, span);
    return answer({ id: span, open: true });
  }

  @Get('letters/:span')
  @Describe({ summary: 'The letters about the promises that moved with these closed days' })
  async letters(@Param('span') span: string, @Hand() hand: SignedIn): Promise<Reply> {
    mustSeeJobs(hand);
    return answer(await this.told(span));
  }

  private async told(spanId: string): Promise<object> {
    const { identity } = await studioBook.the(this.read);
    const { letters } = await lettersOf(this.read, spanId, identity.maker || identity.name);
    return {
      id: spanId,
      letters: letters.map(({ client, numbers, text }) => ({
        clientId: client.id,
        commissions: numbers,
        text,
      })),
    };
  }
}
