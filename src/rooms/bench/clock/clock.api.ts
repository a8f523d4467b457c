import { Body, Controller, Delete, Get, Param, Post, Query } from '@nestjs/common';
import { likeliestOperations } from '../../../domain/bench/likeliest.js';
import type { RunningClock } from '../../../domain/bench/running-clock.js';
import { operationMarks } from '../../../domain/commissions/garment-mark.js';
import { plannedMinutes } from '../../../domain/making/operation.js';
import { clockBook } from '../../../storage/books/bench/clock-book.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { parse } from '../../../web/forms/parse.js';
import { answer, type Reply } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import { personLooking } from '../work/who-works.js';
import { LeftFields, StartFields, StopFields } from './clock.form.js';
import { elapsedNow, garmentSoFar, keptQuestions, type LeftQuestion, runningQuestion } from './clock-told.js';
import { zoneOf } from './keep-sitting.js';
import { answerLeftRunning, startClock, stopClock, type Tapped } from './run-clock.js';

const GARMENT = '0190d5a2-7c1e-7b44-9f0a-3d1f5f0f2a11';
const OPERATION = '0190d5a2-7c1e-7b44-9f0a-3d1f5f0f2a12';

/** The clock at the bench, for programs and for a page whose taps waited. */
@Controller('api/bench')
export class ClockApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get('clock')
  @Describe({
    summary: 'The clock that runs for a person, and sittings that look as if they were left running',
    description:
      'Without `person` it is your own. Minutes are whole; `before` are those of earlier sittings.',
  })
  async running(@Hand() visit: SignedIn, @Query('person') personId = ''): Promise<Reply> {
    const { person } = await personLooking(this.read, visit, personId);
    if (!person) return answer({ clock: null, asked: [] });
    const now = this.clock.now();
    const zone = await zoneOf(this.read);
    const runs = await clockBook.of(this.read, person.id);
    const open = runs && (await runningQuestion(this.read, runs, now, zone));
    const kept = await keptQuestions(this.read, person.id, now, zone);
    return answer({
      clock: runs ? await this.told(runs) : null,
      asked: [...(open ? [open] : []), ...kept].map(askedInJson),
    });
  }

  @Get('clocks')
  @Describe({ summary: 'All clocks that run, the oldest first' })
  async all(): Promise<Reply> {
    const clocks = await clockBook.all(this.read);
    return answer({ items: await Promise.all(clocks.map((one) => this.told(one))) });
  }

  @Post('clock')
  @Describe({
    summary: 'Start a clock; the one before is stopped in the same act',
    description:
      'On an operation of the plan, a whole stage, time without a garment (`away`), or unplanned work with its `cause`. `at` is when the tap was made, up to seven days back. What runs already goes on.',
    examples: {
      operation: { garment: GARMENT, operation: OPERATION },
      stage: { garment: GARMENT, stage: 'baste' },
      unplanned: {
        garment: GARMENT,
        what: 'Heavier chest piece',
        mode: 'hand',
        cause: 'own choice',
        everyTime: true,
      },
      away: { away: 'post', at: '2026-03-02T08:40:00Z' },
    },
  })
  async start(@Body({ schema: StartFields }) body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const { value } = await startClock(this.unit, visit, parse(StartFields, body));
    return answer(await this.tapped(value), 201, { location: '/api/bench/clock' });
  }

  @Post('clock/stop')
  @Describe({
    summary: 'Stop a clock and keep its minutes',
    description: '`begun` names the clock that is meant; `finished` marks its operation as finished.',
    examples: { stop: {}, finished: { finished: true } },
  })
  async stop(@Body({ schema: StopFields }) body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    return answer(await this.tapped((await stopClock(this.unit, visit, parse(StopFields, body))).value));
  }

  @Delete('clock')
  @Describe({ summary: 'Stop your own clock now and keep its minutes' })
  async stopMine(@Hand() visit: SignedIn, @Query('person') person = ''): Promise<Reply> {
    const said = parse(StopFields, person ? { person } : {});
    return answer(await this.tapped((await stopClock(this.unit, visit, said)).value));
  }

  @Post('clock/left')
  @Describe({
    summary: 'Say when a clock stopped that was left running',
    description:
      'The full length is kept and taken back, the right one stands in its place. Without `stopped` it was right. `entry` names minutes that are kept already.',
    examples: {
      running: { stopped: '2026-03-02T18:00:00Z' },
      kept: { entry: '0190d5a2-7c1e-7b44-9f0a-3d1f5f0f2a13', day: '2026-03-02', time: '17:30' },
    },
  })
  async left(@Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const said = parse(LeftFields(await zoneOf(this.read)), body);
    return answer((await answerLeftRunning(this.unit, visit, said)).value);
  }

  @Get('garments/:id')
  @Describe({
    summary: 'A garment at the bench: the likeliest next operations, and minutes worked on each',
    description: 'Minutes of whole stages are shared over their operations by plan.',
  })
  async garment(@Param('id') id: string): Promise<Reply> {
    const garment = await garmentBook.one(this.read, id);
    const marks = await garmentMarkBook.ofGarment(this.read, id);
    const { finished, leftOut } = operationMarks(marks);
    const soFar = await garmentSoFar(this.read, id);
    return answer({
      id,
      name: garment.name,
      place: garment.place,
      standing: await garmentMarkBook.standing(this.read, id),
      likeliest: likeliestOperations(soFar.plan, soFar.soFar).map((one) => one.id),
      operations: soFar.plan.map((one) => ({
        id: one.id,
        name: one.name,
        stage: one.stage,
        planned: plannedMinutes(one),
        worked: soFar.worked.get(one.id) ?? 0,
        finished: finished.has(one.id),
        leftOut: leftOut.has(one.id),
      })),
    });
  }

  private async told(runs: RunningClock) {
    return { ...runs, ...(await elapsedNow(this.read, runs, this.clock.now())) };
  }

  private async tapped({ clock, kept }: Tapped) {
    return { clock: clock ? await this.told(clock) : null, kept: kept ?? null };
  }
}

const askedInJson = ({ work, span, answers, entry }: LeftQuestion) => ({
  entry: entry ?? null,
  name: work.name,
  garmentId: work.garmentId ?? null,
  ...span,
  answers: answers.map(({ is, at }) => ({ is, stopped: at })),
});
