import { randomUUID } from 'node:crypto';
import { Body, Controller, Get, Post } from '@nestjs/common';
import { newStudio } from '../../../domain/house/new-studio.js';
import type { Studio } from '../../../domain/house/studio.js';
import { Invalid, Trouble } from '../../../domain/kernel/errors.js';
import { rateCard } from '../../../domain/rates/rate-card.js';
import { ratesBook } from '../../../storage/books/rates-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { HomeZone } from '../../../storage/home-zone.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { rowsTyped } from '../../../web/forms/closed-up.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { type Typed, typedOf } from '../../../web/forms/typed.js';
import { COMMON_OVERHEAD } from '../../../web/rates/working-fields.js';
import { page, part, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { readHour, readHouse, tidyHour, typedHouse } from './first-run.form.js';
import { donePage, hourPage, hourSoFar, housePage } from './first-run.page.js';
import { openHouse, setFirstHour } from './open-house.js';

/** The first questions: the house, the hour, and what comes out of them. */
@Controller('first-run')
export class FirstRunController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly home: HomeZone,
  ) {}

  @Get()
  async house(@Hand() visit: Visit): Promise<Reply> {
    const studio = await studioBook.maybe(this.read);
    if (studio?.firstRunDone) return seeOther('/house');
    const house = studio ?? this.unnamed(visit);
    const values = typedHouse(house);
    // The currency of a house is its own choice: none is suggested.
    const form = freshForm('/first-run', studio ? values : { ...values, name: '', currency: '' });
    const { template, words } = housePage(form, randomUUID());
    return page(template, words);
  }

  @Post()
  open(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        await this.mustBeUnfinished();
        await openHouse(this.unit, visit, readHouse(typed, this.home.zone));
        return seeOther('/first-run/hour');
      },
      (form) => housePage(form, randomUUID()),
    );
  }

  @Get('hour')
  async hour(): Promise<Reply> {
    const studio = await studioBook.maybe(this.read);
    if (!studio) return seeOther('/first-run');
    if (studio.firstRunDone) return seeOther('/rates');
    const rows = COMMON_OVERHEAD.map((name) => ({ name }));
    const form = freshForm('/first-run/hour', { overruns: studio.overruns, ...rowsTyped('overhead', rows) });
    const { template, words } = hourPage(form, studio, hourSoFar(undefined, studio), randomUUID());
    return page(template, words);
  }

  @Post('hour/sum')
  async sum(@Body() body: unknown): Promise<Reply> {
    const studio = await studioBook.the(this.read);
    return part('rates/hour-sum', { sum: this.sumOf(typedOf(body), studio) });
  }

  @Post('hour')
  async setHour(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = tidyHour(typedOf(body));
    const studio = await studioBook.the(this.read);
    return submit(
      typed,
      async () => {
        await this.mustBeUnfinished();
        const { act } = await setFirstHour(this.unit, visit, readHour(typed, studio));
        return seeOther('/first-run/done', act);
      },
      (form) => hourPage(form, studio, this.sumOf(typed, studio), randomUUID()),
    );
  }

  /** Leaves a page's questions for later; sensible defaults stand, and every answer can be given in its room. */
  @Post('skip')
  async skip(@Hand() visit: Visit): Promise<Reply> {
    const studio = await studioBook.maybe(this.read);
    if (!studio) {
      await openHouse(this.unit, visit, this.unnamed(visit));
      return seeOther('/first-run/hour');
    }
    if (!studio.firstRunDone) await setFirstHour(this.unit, visit, undefined);
    return seeOther('/first-run/done');
  }

  @Get('done')
  async done(): Promise<Reply> {
    const studio = await studioBook.maybe(this.read);
    if (!studio) return seeOther('/first-run');
    const card = await ratesBook.on(this.read, todayIn(this.clock, studio.identity.zone));
    return page('first-run/done', donePage(studio, card));
  }

  private unnamed(visit: Visit): Omit<Studio, 'version'> {
    const name = `${visit.who.name}, workroom`;
    return newStudio({ name, maker: visit.who.name, zone: this.home.zone });
  }

  private async mustBeUnfinished(): Promise<void> {
    if ((await studioBook.maybe(this.read))?.firstRunDone)
      throw new Invalid('The first questions are answered. Change the answers in House and Rates.');
  }

  private sumOf(typed: Typed, studio: Studio): object {
    try {
      const { workings } = readHour(typed, studio);
      return hourSoFar(rateCard(todayIn(this.clock, studio.identity.zone), workings), studio);
    } catch (trouble) {
      if (!(trouble instanceof Trouble)) throw trouble;
      return hourSoFar(undefined, studio, trouble.fields.length === 1 ? trouble.message : '');
    }
  }
}
