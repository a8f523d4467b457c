import { Body, Controller, Delete, Get, Headers, Param, Put } from '@nestjs/common';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { presentAs } from '../../../web/api/present-as.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../../web/forms/version.js';
import { answer, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { GarmentSent } from '../commission.form.js';
import { correctGarment, setOwnPrice, takeOutGarment } from './change-garment.js';
import { OwnPriceSent } from './garment.form.js';

/** One garment for programs, with its plan, materials and expenses. */
@Controller('api/garments/:garment')
export class GarmentsApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async one(@Param('garment') id: string): Promise<Reply> {
    const { garment, ...planned } = await garmentBook.planned(this.read, id);
    return answer({ ...garment, ...planned }, 200, etagOf(garment.version));
  }

  @Put()
  async correct(
    @Param('garment') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const said = parse(GarmentSent, body);
    const { value } = await presentAs(
      () => this.one(id),
      () => correctGarment(this.unit, visit, id, said, versionOfIfMatch(match)),
    );
    return answer(value, 200, etagOf(value.version));
  }

  @Delete()
  async takeOut(
    @Param('garment') id: string,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { value } = await presentAs(
      () => this.one(id),
      () => takeOutGarment(this.unit, visit, id, versionOfIfMatch(match)),
    );
    return answer(value);
  }

  /** The net price set by hand; `null` lets the sum say it. */
  @Put('price')
  async price(
    @Param('garment') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { identity } = await studioBook.the(this.read);
    const ownPrice = parse(OwnPriceSent(identity.currency), body);
    const { value } = await presentAs(
      () => this.one(id),
      () => setOwnPrice(this.unit, visit, id, ownPrice, versionOfIfMatch(match)),
    );
    return answer(value, 200, etagOf(value.version));
  }
}
