import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { submit } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand, type SignedIn } from '../../../web/visit.js';
import { benchPage, forPerson, garmentsPage } from './bench.page.js';
import { LeftFields, StartFields, StopFields } from './clock.form.js';
import { departurePage, garmentPage } from './garment.page.js';
import { zoneOf } from './keep-sitting.js';
import { answerLeftRunning, startClock, stopClock } from './run-clock.js';

/** The clock at the bench. */
@Controller('bench')
export class ClockController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async bench(@Hand() visit: SignedIn, @Query('person') person = ''): Promise<Reply> {
    const { template, words } = await benchPage(this.read, this.clock, visit, person);
    return page(template, words);
  }

  @Get('garments')
  async garments(
    @Hand() visit: SignedIn,
    @Query('after') after = '',
    @Query('person') person = '',
  ): Promise<Reply> {
    return page('bench/clock/garments', await garmentsPage(this.read, visit, after, person));
  }

  @Get('garments/:id')
  async garment(
    @Param('id') id: string,
    @Hand() visit: SignedIn,
    @Query('person') person = '',
  ): Promise<Reply> {
    return page('bench/clock/garment', await garmentPage(this.read, this.clock, visit, id, person));
  }

  @Get('garments/:id/departure')
  async departureForm(
    @Param('id') id: string,
    @Hand() visit: SignedIn,
    @Query('person') person = '',
  ): Promise<Reply> {
    const { template, words } = await departurePage(this.read, this.clock, visit, id, person);
    return page(template, words);
  }

  @Post('garments/:id/departure')
  depart(@Param('id') id: string, @Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(StartFields, { ...typed, garment: id });
        const { act } = await startClock(this.unit, visit, said);
        return seeOther(forPerson('/bench', said.person), act);
      },
      (form) => departurePage(this.read, this.clock, visit, id, typed.person, form),
    );
  }

  @Post('clock')
  start(@Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(StartFields, typed);
        const { act } = await startClock(this.unit, visit, said);
        return seeOther(forPerson('/bench', said.person), act);
      },
      (form) => benchPage(this.read, this.clock, visit, typed.person, form),
    );
  }

  @Post('clock/stop')
  stop(@Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(StopFields, typed);
        const { act } = await stopClock(this.unit, visit, said);
        return seeOther(forPerson('/bench', said.person), act);
      },
      (form) => benchPage(this.read, this.clock, visit, typed.person, form),
    );
  }

  @Post('clock/left')
  left(@Body() body: unknown, @Hand() visit: SignedIn): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(LeftFields(await zoneOf(this.read)), typed);
        const { act } = await answerLeftRunning(this.unit, visit, said);
        return seeOther(forPerson('/bench', said.person), act);
      },
      (form) => benchPage(this.read, this.clock, visit, typed.person, form),
    );
  }
}
