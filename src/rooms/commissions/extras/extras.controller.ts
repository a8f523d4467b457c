import { randomUUID } from 'node:crypto';
import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { causeRule, isCause } from '../../../domain/costing/cause-rules.js';
import type { Cause } from '../../../domain/costing/causes.js';
import { Invalid, Trouble } from '../../../domain/kernel/errors.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { makingBook } from '../../../storage/books/making-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { type Typed, typedOf } from '../../../web/forms/typed.js';
import { type PageWords, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { garmentIn } from '../garments/change-garment.js';
import { offerExtra } from './change-extras.js';
import { offerIn, readWork } from './extra.form.js';
import { extraUrl } from './extra-words.js';
import { saysNothing } from './extra-work.js';
import { causePage, type ExtraPlace, noExtraPage, offerPage, whatPage } from './new-extra.page.js';
import { prepareExtra } from './prepare-extra.js';

type Drawn = { template: string; words: PageWords };

/** A departure from the plan: why, what, and what it does to hours, price and day. */
@Controller('commissions/:commission/garments/:garment/extras')
export class ExtrasController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get('new')
  async begin(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Query() asked: Record<string, unknown>,
  ): Promise<Reply> {
    const typed = typedOf(asked);
    const place = await this.place(commission, garment);
    const cause = typed.cause ?? '';
    if (!isCause(cause)) return shown(causePage(place));
    if (!causeRule(cause).mayBeExtra) return shown(noExtraPage(place, cause));
    try {
      const work = readWork(typed, place.studio);
      if (saysNothing(work) || typed.look === 'yes') return shown(whatPage(place, cause, typed));
      const said = { garmentId: garment, cause, kind: 'charged' as const, work };
      return shown(
        offerPage(place, cause, typed, await prepareExtra(this.read, this.clock, said, randomUUID)),
      );
    } catch (error) {
      if (!(error instanceof Trouble)) throw error;
      return shown(troubledPage(place, cause, typed, error), 422);
    }
  }

  @Post()
  async offer(
    @Param('commission') commission: string,
    @Param('garment') garment: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    const place = await this.place(commission, garment);
    const cause = typed.cause ?? '';
    if (!isCause(cause)) throw Invalid.field('cause', 'Say why it is other than planned.');
    const today = todayIn(this.clock, place.studio.identity.zone);
    return submit(
      typed,
      async () => {
        const work = readWork(typed, place.studio);
        const said = { garmentId: garment, cause, ...offerIn(typed, place.studio, today), work };
        const { words } = await prepareExtra(this.read, this.clock, said, randomUUID);
        const { value, act } = await offerExtra(this.unit, visit, words, today);
        return seeOther(extraUrl(value), act);
      },
      async (form) => {
        try {
          const said = {
            garmentId: garment,
            cause,
            kind: 'charged' as const,
            work: readWork(typed, place.studio),
          };
          return offerPage(
            place,
            cause,
            typed,
            await prepareExtra(this.read, this.clock, said, randomUUID),
            form,
          );
        } catch (error) {
          if (!(error instanceof Trouble)) throw error;
          return whatPage(place, cause, typed, { ...form, values: { ...typed } });
        }
      },
    );
  }

  private async place(commissionId: string, garmentId: string): Promise<ExtraPlace> {
    const { typeId } = await garmentIn(this.read, commissionId, garmentId);
    return {
      studio: await studioBook.the(this.read),
      commission: await commissionBook.one(this.read, commissionId),
      planned: await garmentBook.planned(this.read, garmentId),
      known: await makingBook.operations(this.read, typeId),
    };
  }
}

const shown = ({ template, words }: Drawn, status = 200): Reply => page(template, words, status);

const troubledPage = (place: ExtraPlace, cause: Cause, typed: Typed, error: Trouble): Drawn =>
  whatPage(place, cause, typed, {
    ...freshForm('', { ...typed }),
    errors: error.fields.length > 0 ? [...error.fields] : [{ field: '', text: error.message }],
  });
