import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { Invalid } from '../../../domain/kernel/errors.js';
import { planBook } from '../../../storage/books/plan-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { closedUp } from '../../../web/forms/closed-up.js';
import { submit } from '../../../web/forms/form.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import type { Choice } from '../../../web/words/reading.js';
import { forPerson } from '../clock/bench.page.js';
import { addSheet, addTime, ODD } from './add-time.js';
import { splitTime } from './correct-time.js';
import { readLine } from './read-line.js';
import { readSplit } from './read-split.js';
import { sheetPage, splitPage } from './sheets.page.js';
import { readSheet } from './time.form.js';
import { garmentEntriesPage, timePage } from './time.page.js';

/** Time that was forgotten: in one line, from a making sheet, or one sitting over several garments. */
@Controller('bench')
export class TimeController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get('time')
  async time(
    @Hand() visit: SignedIn,
    @Query('day') day = '',
    @Query('person') person = '',
    @Query('garment') garment = '',
  ): Promise<Reply> {
    const { template, words } = await timePage(this.read, this.clock, visit, { day, person, garment });
    return page(template, words);
  }

  @Post('time')
  async add(@Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    const person = typed.person || undefined;
    let choices: readonly Choice[] = [];
    return submit(
      typed,
      async () => {
        const reading = await readLine(this.read, this.clock, typed.line ?? '', typed.garment || undefined);
        if (reading.kind === 'empty')
          throw Invalid.field('line', 'Write how long and what, such as “1h30 lapels yesterday”.');
        if (reading.kind === 'ask') choices = reading.choices;
        if (reading.kind !== 'ok') throw Invalid.field('line', reading.sentence);
        const { garmentId: garment, operationId: operation, ...rest } = reading.value;
        const said = { ...rest, garment, operation, evenIfOdd: typed[ODD] === 'yes' };
        const { value, act } = await addTime(this.unit, visit, person, said, 'line', 'line');
        return seeOther(forPerson(`/bench/time?day=${value.on}`, person), act);
      },
      (form) => timePage(this.read, this.clock, visit, { person, garment: typed.garment, form, choices }),
    );
  }

  @Get('garments/:id/entries')
  async entries(
    @Param('id') id: string,
    @Hand() visit: SignedIn,
    @Query('after') after = '',
  ): Promise<Reply> {
    return page('bench/time/entries', await garmentEntriesPage(this.read, visit, id, after));
  }

  @Get('garments/:id/sheet')
  async sheetForm(
    @Param('id') id: string,
    @Hand() visit: SignedIn,
    @Query('person') person = '',
  ): Promise<Reply> {
    const { template, words } = await sheetPage(this.read, this.clock, visit, id, person);
    return page(template, words);
  }

  @Post('garments/:id/sheet')
  async sheet(@Param('id') id: string, @Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const studio = await studioBook.the(this.read);
        const lines = readSheet(typed, await planBook.of(this.read, id), id, studio);
        if (lines.length === 0) throw Invalid.field('on', 'Write a time beside at least one operation.');
        const { act } = await addSheet(this.unit, visit, typed.person || undefined, lines);
        return seeOther(`/bench/garments/${id}/entries`, act);
      },
      (form) => sheetPage(this.read, this.clock, visit, id, typed.person, form),
    );
  }

  @Get('split')
  async splitForm(
    @Hand() visit: SignedIn,
    @Query('entry') entry = '',
    @Query('person') person = '',
  ): Promise<Reply> {
    const { template, words } = await splitPage(this.read, this.clock, visit, { entry, person });
    return page(template, words);
  }

  @Post('split')
  async split(@Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const { typed, rows } = closedUp(typedOf(body), 'parts', ['what', 'minutes']);
    return submit(
      typed,
      async () => {
        const said = await readSplit(this.read, typed, rows);
        const { value, act } = await splitTime(this.unit, visit, said);
        return seeOther(forPerson(`/bench/time?day=${value[0]?.on ?? said.on}`, said.person), act);
      },
      (form) => splitPage(this.read, this.clock, visit, { entry: typed.entry, person: typed.person, form }),
    );
  }
}
