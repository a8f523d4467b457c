import { Body, Controller, Delete, Get, Headers, Param, Post, Put } from '@nestjs/common';
import type { PriceListLine } from '../../../domain/pricing/price-list-line.js';
import { priceListBook } from '../../../storage/books/price-list-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { presentAs } from '../../../web/api/present-as.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../../web/forms/version.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { addLine, correctLine, removeLine } from './change-price-list.js';
import { hourSoldToday } from './hour-sold-today.js';
import { LineSent } from './price-line.form.js';
import { priceOf } from './price-list.page.js';

/** The house price list for programs, priced at today's hour. */
@Controller('api/rates/price-list')
export class PriceListApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async all(): Promise<Reply> {
    const price = await this.pricer();
    return answer({ items: (await priceListBook.all(this.read)).map(price) });
  }

  @Post()
  async add(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { value } = await addLine(this.unit, visit, parse(await this.schema(), body));
    return created(`/api/rates/price-list/${value.id}`, (await this.pricer())(value));
  }

  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const line = await priceListBook.one(this.read, id);
    return answer((await this.pricer())(line), 200, etagOf(line.version));
  }

  @Put(':id')
  async correct(
    @Param('id') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const said = parse(await this.schema(), body);
    await presentAs(
      () => this.one(id),
      () => correctLine(this.unit, visit, id, said, versionOfIfMatch(match)),
    );
    return this.one(id);
  }

  @Delete(':id')
  async remove(
    @Param('id') id: string,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await presentAs(
      () => this.one(id),
      () => removeLine(this.unit, visit, id, versionOfIfMatch(match)),
    );
    return answer({ removed: id });
  }

  private async schema() {
    return LineSent((await studioBook.the(this.read)).identity.currency);
  }

  /** A line with its price; null where no hour is known yet and none was put by hand. */
  private async pricer(): Promise<(line: PriceListLine) => object> {
    const [studio, perHour] = [await studioBook.the(this.read), await hourSoldToday(this.read, this.clock)];
    return (line) => {
      const worked = perHour && priceOf(line, perHour, studio);
      return { ...line, worked: worked?.worked ?? null, price: line.ownPrice ?? worked?.price ?? null };
    };
  }
}
