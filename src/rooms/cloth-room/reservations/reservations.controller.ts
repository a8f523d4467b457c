import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { z } from 'zod';
import type { QuantityUnit } from '../../../domain/kernel/quantity.js';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { reservationBook } from '../../../storage/books/cloth-room/reservation-book.js';
import { servedGarments } from '../../../storage/books/cloth-room/served-garments.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { line, optionalLine, yesNo } from '../../../web/fields/fields.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { parse, parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { answer, created, page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { materialUrl } from '../cloth-room.page.js';
import { type StockFields, sentFields, typedFields } from '../stock-fields.js';
import { reservePage } from './reservation.page.js';
import { release, reserve } from './reserve.js';

const ReserveFields = (fields: StockFields, unit: QuantityUnit) =>
  z.strictObject({
    quantity: fields.quantity(unit, 'How much is promised?'),
    lot: optionalLine(40).transform((id) => id || undefined),
    garment: line('Say which garment it is for.', 40),
    note: optionalLine(400),
    evenIfPromised: yesNo(),
  });

/** What is promised to which garment. */
@Controller()
export class ReservationsController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get('cloth-room/materials/:id/promise')
  async form(
    @Param('id') id: string,
    @Query('lot') lot = '',
    @Query('garment') garment = '',
  ): Promise<Reply> {
    const { template, words } = await this.drawn(id, freshForm('', { lot, garment }));
    return page(template, words);
  }

  @Post('cloth-room/materials/:id/promise')
  async reserve(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const { unit } = await materialBook.one(this.read, id);
    const { identity } = await studioBook.the(this.read);
    return submit(
      typed,
      async () => {
        const said = parseForm(ReserveFields(typedFields(identity), unit), typed);
        const { act } = await reserve(this.unit, visit, id, said);
        return seeOther(materialUrl(id), act);
      },
      (form) => this.drawn(id, form),
    );
  }

  @Post('cloth-room/reservations/:id/release')
  async release(@Param('id') id: string, @Hand() visit: Visit): Promise<Reply> {
    const { value, act } = await release(this.unit, visit, id);
    return seeOther(materialUrl(value.materialId), act);
  }

  @Get('api/materials/:id/reservations')
  async list(@Param('id') id: string): Promise<Reply> {
    await materialBook.one(this.read, id);
    return answer({ items: await reservationBook.ofMaterial(this.read, id) });
  }

  @Post('api/materials/:id/reservations')
  async sent(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { unit } = await materialBook.one(this.read, id);
    const { identity } = await studioBook.the(this.read);
    const said = parse(ReserveFields(sentFields(identity), unit), body);
    const { value } = await reserve(this.unit, visit, id, said);
    return created(`/api/materials/${id}/reservations`, value);
  }

  private async drawn(id: string, form: FormModel) {
    return reservePage(form, {
      material: await materialBook.one(this.read, id),
      lots: await lotBook.ofMaterial(this.read, id),
      garments: await servedGarments(this.read),
      identity: (await studioBook.the(this.read)).identity,
    });
  }
}
