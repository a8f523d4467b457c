import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { productiveShare } from '../../../domain/bench/productive-share.js';
import { addDays, calendarDate } from '../../../domain/kernel/calendar-date.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import { benchBook } from '../../../storage/books/bench/bench-book.js';
import { sittingBook } from '../../../storage/books/bench/sitting-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { pageSize } from '../../../web/api/page-size.js';
import { parse } from '../../../web/forms/parse.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import { personLooking } from '../work/who-works.js';
import { addTime } from './add-time.js';
import { reverseTime, splitTime } from './correct-time.js';
import { readLine } from './read-line.js';
import { LineFields, ReversalFields, SplitFields, TimeFields } from './time.form.js';

const GARMENT = '0190d5a2-7c1e-7b44-9f0a-3d1f5f0f2a11';
const OPERATION = '0190d5a2-7c1e-7b44-9f0a-3d1f5f0f2a12';

/** Time worked, for programs. Entries are added and taken back, never changed. */
@Controller('api')
export class TimeApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get('garments/:id/bench-entries')
  @Describe({ summary: 'Time on a garment, newest first, reversals included' })
  async ofGarment(
    @Param('id') id: string,
    @Query('after') after = '',
    @Query('limit') limit = '100',
  ): Promise<Reply> {
    await garmentBook.one(this.read, id);
    const most = pageSize(limit, 100, 500);
    const found = await benchBook.newest(this.read, most + 1, after || undefined, { garmentId: id });
    const items = found.slice(0, most);
    return answer({ items, ...(found.length > most ? { next: items.at(-1)?.id } : {}) });
  }

  @Post('garments/:id/bench-entries')
  @Describe({
    summary: 'Add time to a garment',
    description:
      'On a line of its plan, a whole stage, or unplanned work with its `cause`. Minutes may be left out where `begunAt` and `endedAt` are said. What overlaps another sitting is asked (422, code `asked`): send `evenIfOdd` where it is right.',
    examples: {
      operation: { operation: OPERATION, minutes: 90, on: '2026-03-01' },
      span: { stage: 'baste', begunAt: '2026-03-02T09:00:00Z', endedAt: '2026-03-02T10:30:00Z' },
      unplanned: { what: 'Re-cut the facing', cause: 'own error', mode: 'bench', minutes: 40 },
    },
  })
  async addTo(@Param('id') id: string, @Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const { person, ...said } = parse(TimeFields(await this.today()), body);
    if (said.garment && said.garment !== id)
      throw Invalid.field('garment', 'Another garment than in the address.');
    const { value } = await addTime(this.unit, visit, person, { ...said, garment: id }, 'line');
    return created(`/api/bench/entries/${value.id}`, value);
  }

  @Get('bench/entries')
  @Describe({
    summary: 'Time of one person from a day to a day, oldest first',
    description: 'Without `person` your own; without days today. At most 100 days.',
  })
  async ofPerson(
    @Hand() visit: SignedIn,
    @Query('person') personId = '',
    @Query('from') from = '',
    @Query('to') to = '',
  ): Promise<Reply> {
    const today = await this.today();
    const { person } = await personLooking(this.read, visit, personId);
    const last = to ? calendarDate(to) : today;
    const first = from ? calendarDate(from) : last;
    if (first < addDays(last, -100)) throw Invalid.field('from', 'At most 100 days at once.');
    return answer({ items: person ? await benchBook.ofPerson(this.read, person.id, first, last) : [] });
  }

  @Post('bench/entries')
  @Describe({
    summary: 'Add time without a garment, or to the garment that is named',
    examples: { post: { away: 'post', minutes: 25, on: '2026-03-02' } },
  })
  async add(@Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const { person, ...said } = parse(TimeFields(await this.today()), body);
    const { value } = await addTime(this.unit, visit, person, said, 'line');
    return created(`/api/bench/entries/${value.id}`, value);
  }

  @Get('bench/entries/:id')
  @Describe({ summary: 'One entry of time, and what took it back' })
  async one(@Param('id') id: string): Promise<Reply> {
    const entry = await benchBook.one(this.read, id);
    const [back] = await benchBook.reversalsOf(this.read, [id]);
    return answer({ ...entry, takenBackBy: back?.id ?? null });
  }

  @Post('bench/entries/:id/reversal')
  @Describe({
    summary: 'Take an entry back, and write it anew where `instead` says so',
    description: 'Without work of its own `instead` is the same work.',
    examples: {
      back: { reason: 'Written twice' },
      anew: { reason: 'It was an hour', instead: { minutes: 60, on: '2026-03-02' } },
    },
  })
  async reverse(@Param('id') id: string, @Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const { reason, instead } = parse(ReversalFields(await this.today()), body);
    const before = await benchBook.one(this.read, id);
    const isSame = instead && !instead.garment && !instead.away;
    const said = instead && (isSame ? { ...instead, sameAs: before } : instead);
    const { value } = await reverseTime(this.unit, visit, id, reason, said);
    const [back] = await benchBook.reversalsOf(this.read, [id]);
    return created(`/api/bench/entries/${back?.id}`, { reversal: back ?? null, instead: value ?? null });
  }

  @Post('bench/split')
  @Describe({
    summary: 'Keep one sitting split over several pieces of work',
    description:
      'Parts without minutes share what is left evenly. `entry` names the minutes it was kept as before; they are taken back.',
    examples: {
      evenly: {
        minutes: 100,
        on: '2026-03-02',
        parts: [
          { garment: GARMENT, stage: 'cut' },
          { garment: GARMENT, operation: OPERATION, minutes: 40 },
        ],
      },
    },
  })
  async split(@Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const { value } = await splitTime(this.unit, visit, parse(SplitFields(await this.today()), body));
    return answer({ items: value }, 201);
  }

  @Get('bench/line')
  @Describe({
    summary: 'Read a line of time without keeping it',
    description:
      'Answers `ok` with what was understood, `ask` with lines that can be sent instead, `refuse` or `empty`.',
  })
  async lineRead(@Query('text') text = '', @Query('garment') garment = ''): Promise<Reply> {
    return answer(await readLine(this.read, this.clock, text, garment || undefined));
  }

  @Post('bench/line')
  @Describe({
    summary: 'Keep a line of time, such as `1h30 lapels yesterday`',
    examples: { lapels: { line: '1h30 lapels yesterday' } },
  })
  async lineKept(@Body({ schema: LineFields }) body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const { line, garment, person, evenIfOdd } = parse(LineFields, body);
    const reading = await readLine(this.read, this.clock, line, garment);
    if (reading.kind === 'empty') throw Invalid.field('line', 'Write how long and what.');
    if (reading.kind === 'refuse') throw Invalid.field('line', reading.sentence);
    if (reading.kind === 'ask') {
      const instead = reading.choices.map(({ typed }) => `“${typed}”`).join(' or ');
      throw Invalid.field('line', instead ? `${reading.sentence} Send ${instead}.` : reading.sentence);
    }
    const { garmentId, operationId, ...rest } = reading.value;
    const said = { ...rest, garment: garmentId, operation: operationId, evenIfOdd };
    const { value } = await addTime(this.unit, visit, person, said, 'line', 'line');
    return created(`/api/bench/entries/${value.id}`, value);
  }

  @Get('bench/productive-share')
  @Describe({
    summary: 'The share of the time of the last year that went into garments, and the weeks it rests on',
  })
  async share(): Promise<Reply> {
    const today = await this.today();
    const found = productiveShare(await sittingBook.days(this.read, addDays(today, -364), today));
    return answer(found ? { ...found, share: found.share.toDecimalPlaces(4).toFixed() } : null);
  }

  private async today() {
    return todayIn(this.clock, (await studioBook.the(this.read)).identity.zone);
  }
}
