import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { z } from 'zod';
import { PRICE_LIST_SORTS } from '../../../domain/pricing/price-list-line.js';
import { priceListBook } from '../../../storage/books/price-list-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { oneOf } from '../../../web/fields/fields.js';
import { freshForm, submit, versionSeen } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { addLine, correctLine, offeredLines, removeLine, takeOver } from './change-price-list.js';
import { hourSoldToday } from './hour-sold-today.js';
import { LineTyped, typedLine } from './price-line.form.js';
import { priceLinePage, priceListPage } from './price-list.page.js';

/** The house price list: standing prices for counter work, alterations and make-and-trim. */
@Controller('rates/price-list')
export class PriceListController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async list(): Promise<Reply> {
    const [lines, offered, studio] = [
      await priceListBook.all(this.read),
      await offeredLines(this.read),
      await studioBook.the(this.read),
    ];
    const perHour = await hourSoldToday(this.read, this.clock);
    return page('rates/price-list', priceListPage(lines, offered, perHour, studio));
  }

  @Post('take-over')
  async takeOver(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { sort } = parseForm(z.strictObject({ sort: oneOf(PRICE_LIST_SORTS) }), typedOf(body));
    const { act } = await takeOver(this.unit, visit, sort);
    return seeOther('/rates/price-list', act);
  }

  @Get('new')
  async newLine(): Promise<Reply> {
    const form = freshForm('', { sort: 'counter' });
    const { template, words } = priceLinePage(form, await studioBook.the(this.read));
    return page(template, words);
  }

  @Post('new')
  add(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { identity } = await studioBook.the(this.read);
        const { act } = await addLine(this.unit, visit, parseForm(LineTyped(identity), typed));
        return seeOther('/rates/price-list', act);
      },
      async (form) => priceLinePage(form, await studioBook.the(this.read)),
    );
  }

  @Get(':id')
  async form(@Param('id') id: string): Promise<Reply> {
    const [line, studio] = [await priceListBook.one(this.read, id), await studioBook.the(this.read)];
    const form = freshForm('', typedLine(line, studio.identity.locale), line.version);
    const { template, words } = priceLinePage(form, studio, line);
    return page(template, words);
  }

  @Post(':id')
  correct(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { identity } = await studioBook.the(this.read);
        const said = parseForm(LineTyped(identity), typed);
        const { act } = await correctLine(this.unit, visit, id, said, versionSeen(typed));
        return seeOther('/rates/price-list', act);
      },
      async (form) =>
        priceLinePage(form, await studioBook.the(this.read), await priceListBook.one(this.read, id)),
      async () =>
        typedLine(await priceListBook.one(this.read, id), (await studioBook.the(this.read)).identity.locale),
    );
  }

  @Post(':id/remove')
  async remove(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { act } = await removeLine(this.unit, visit, id, versionSeen(typedOf(body)));
    return seeOther('/rates/price-list', act);
  }
}
