import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import type { FormModel } from '../../../printing/templates/page-model.js';
import { entryBook } from '../../../storage/books/cloth-room/entry-book.js';
import { lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { servedGarments } from '../../../storage/books/cloth-room/served-garments.js';
import { supplierCredits } from '../../../storage/books/money-out/supplier-credits.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { submit } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { lotUrl } from '../cloth-room.page.js';
import { typedFields } from '../stock-fields.js';
import { bringBack, keepOffcut, reverseMovement } from './bring-back.js';
import { OffcutFields, ReturnFields, ReverseFields, TakeFields } from './movement.form.js';
import { type Again, freshTake, movementPage, movementUrl, takePage } from './movement.page.js';
import { takeOut } from './take-out.js';

/** What goes out and comes back. */
@Controller('cloth-room')
export class MovementsController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get('materials/:id/take')
  async takeForm(
    @Param('id') id: string,
    @Query('lot') lot = '',
    @Query('garment') garment = '',
    @Query('kind') kind = '',
  ): Promise<Reply> {
    const { template, words } = await this.taking(
      id,
      freshTake((await this.house()).today, { lot, garment, kind }),
    );
    return page(template, words);
  }

  @Post('materials/:id/take')
  async take(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const material = await materialBook.one(this.read, id);
    const { fields, today } = await this.house();
    return submit(
      typed,
      async () => {
        const said = parseForm(TakeFields(fields, material, today), typed);
        const { value, act } = await takeOut(this.unit, visit, id, said);
        return seeOther(movementUrl(value), act);
      },
      (form) => this.taking(id, form),
    );
  }

  @Get('movements/:id')
  async one(@Param('id') id: string): Promise<Reply> {
    const { template, words } = await this.drawn(id);
    return page(template, words);
  }

  @Post('movements/:id/return')
  async bringBack(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const { fields, today } = await this.house();
    const material = await this.materialOf(id);
    return submit(
      typed,
      async () => {
        const said = parseForm(ReturnFields(fields, material, today), typed);
        return seeOther(movementUrl(id), (await bringBack(this.unit, visit, id, said)).act);
      },
      (form) => this.drawn(id, { which: 'return', form }),
    );
  }

  @Post('movements/:id/offcut')
  async offcut(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const { fields, today } = await this.house();
    const material = await this.materialOf(id);
    return submit(
      typed,
      async () => {
        const said = parseForm(OffcutFields(fields, material, today), typed);
        const { value, act } = await keepOffcut(this.unit, visit, id, said);
        return seeOther(lotUrl(value), act);
      },
      (form) => this.drawn(id, { which: 'offcut', form }),
    );
  }

  @Post('movements/:id/reverse')
  async reverse(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const { today } = await this.house();
    await this.materialOf(id);
    return submit(
      typed,
      async () => {
        const said = parseForm(ReverseFields(today), typed);
        return seeOther(movementUrl(id), (await reverseMovement(this.unit, visit, id, said)).act);
      },
      (form) => this.drawn(id, { which: 'reverse', form }),
    );
  }

  private async house() {
    const { identity } = await studioBook.the(this.read);
    return { identity, fields: typedFields(identity), today: todayIn(this.clock, identity.zone) };
  }

  private async materialOf(entryId: string) {
    return materialBook.one(this.read, (await entryBook.one(this.read, entryId)).materialId);
  }

  private async taking(id: string, form: FormModel) {
    const { identity, today } = await this.house();
    return takePage(form, {
      material: await materialBook.one(this.read, id),
      lots: await lotBook.ofMaterial(this.read, id),
      garments: await servedGarments(this.read),
      today,
      identity,
    });
  }

  private async drawn(id: string, again?: Again) {
    const { identity, today } = await this.house();
    const entry = await entryBook.one(this.read, id);
    return movementPage(
      {
        entry,
        material: await materialBook.one(this.read, entry.materialId),
        lots: await lotBook.named(
          this.read,
          entry.parts.map(({ lotId }) => lotId),
        ),
        about: await entryBook.about(this.read, [id]),
        stillOut: await entryBook.stillOut(this.read, entry),
        credit: await supplierCredits.find(this.read, id),
        today,
        identity,
      },
      again,
    );
  }
}
