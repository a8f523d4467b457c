import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { pastGarmentBook } from '../../storage/books/past-garment-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../storage/clock.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { freshForm, submit, versionSeen } from '../../web/forms/form.js';
import { typedOf } from '../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../web/reply.js';
import { Hand } from '../../web/visit.js';
import type { DateField } from '../../web/words/dates.js';
import { lessonsPage, totalFormPage, totalsFormPage } from './lessons.page.js';
import { lessonsOf, studioLesson } from './lessons-of.js';
import { readTotal, readTotals, tidyTotals, typedTotal } from './totals.form.js';
import { correctTotal, removeTotal, writeDown } from './write-down.js';

/** The pages of the Lessons room: what garments really take. */
@Controller('lessons')
export class LessonsController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async lessons(): Promise<Reply> {
    const [known, studio] = [await lessonsOf(this.read), await studioLesson(this.read)];
    return page('lessons/lessons', lessonsPage(known, studio, (await this.dates()).locale));
  }

  @Get('totals')
  async totalsForm(): Promise<Reply> {
    const { template, words } = totalsFormPage(freshForm('/lessons/totals'), await lessonsOf(this.read));
    return page(template, words);
  }

  @Post('totals')
  writeTotals(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = tidyTotals(typedOf(body));
    return submit(
      typed,
      async () => {
        const garments = readTotals(typed, await this.dates());
        const { act } = await writeDown(this.unit, visit, garments, (place) => `totals.${place}.type`);
        return seeOther('/lessons', act);
      },
      async (form) => totalsFormPage(form, await lessonsOf(this.read)),
    );
  }

  @Get('totals/:id')
  async totalForm(@Param('id') id: string): Promise<Reply> {
    const past = await pastGarmentBook.one(this.read, id);
    const form = freshForm(`/lessons/totals/${id}`, typedTotal(past), past.version);
    const { template, words } = totalFormPage(form, await lessonsOf(this.read), past);
    return page(template, words);
  }

  @Post('totals/:id')
  correct(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const words = readTotal(typed, await this.dates());
        const { act } = await correctTotal(this.unit, visit, id, words, versionSeen(typed));
        return seeOther(`/lessons/garment-types/${words.typeId}`, act);
      },
      async (form) =>
        totalFormPage(form, await lessonsOf(this.read), await pastGarmentBook.one(this.read, id)),
      async () => typedTotal(await pastGarmentBook.one(this.read, id)),
    );
  }

  @Post('totals/:id/remove')
  async remove(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { value, act } = await removeTotal(this.unit, visit, id, versionSeen(typedOf(body)));
    return seeOther(`/lessons/garment-types/${value}`, act);
  }

  private async dates(): Promise<DateField & { locale: string }> {
    const { identity } = await studioBook.the(this.read);
    return { today: todayIn(this.clock, identity.zone), locale: identity.locale };
  }
}
