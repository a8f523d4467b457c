import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { entryBook } from '../../../storage/books/cloth-room/entry-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { parse } from '../../../web/forms/parse.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { sentFields } from '../stock-fields.js';
import { bringBack, keepOffcut, reverseMovement } from './bring-back.js';
import { OffcutFields, ReturnFields, ReverseFields, TakeFields } from './movement.form.js';
import { takeOut } from './take-out.js';

/** What goes out and comes back, for programs. */
@Controller('api/materials/:id/movements')
export class MovementsApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async all(@Param('id') id: string): Promise<Reply> {
    await materialBook.one(this.read, id);
    return answer({ items: await entryBook.ofMaterial(this.read, id, 1000) });
  }

  @Post()
  async take(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const material = await materialBook.one(this.read, id);
    const { fields, today } = await this.house();
    const { value } = await takeOut(this.unit, visit, id, parse(TakeFields(fields, material, today), body));
    return this.made(id, value);
  }

  @Get(':movement')
  async one(@Param('movement') movement: string): Promise<Reply> {
    return answer(await entryBook.one(this.read, movement));
  }

  @Post(':movement/return')
  async bringBack(
    @Param('id') id: string,
    @Param('movement') movement: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { fields, today } = await this.house();
    const material = await materialBook.one(this.read, id);
    const said = parse(ReturnFields(fields, material, today), body);
    return this.made(id, (await bringBack(this.unit, visit, movement, said)).value);
  }

  @Post(':movement/offcut')
  async offcut(
    @Param('id') id: string,
    @Param('movement') movement: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { fields, today } = await this.house();
    const material = await materialBook.one(this.read, id);
    const said = parse(OffcutFields(fields, material, today), body);
    const { value } = await keepOffcut(this.unit, visit, movement, said);
    return created(`/api/lots/${value}`, { id: value });
  }

  @Post(':movement/reversal')
  async reverse(
    @Param('id') id: string,
    @Param('movement') movement: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { today } = await this.house();
    const { value } = await reverseMovement(this.unit, visit, movement, parse(ReverseFields(today), body));
    return this.made(id, value);
  }

  private async made(materialId: string, id: string): Promise<Reply> {
    return created(`/api/materials/${materialId}/movements/${id}`, await entryBook.one(this.read, id));
  }

  private async house() {
    const { identity } = await studioBook.the(this.read);
    return { fields: sentFields(identity), today: todayIn(this.clock, identity.zone) };
  }
}
