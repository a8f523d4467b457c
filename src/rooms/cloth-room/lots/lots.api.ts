import { Body, Controller, Get, Headers, Param, Post, Put } from '@nestjs/common';
import { z } from 'zod';
import { Invalid } from '../../../domain/kernel/errors.js';
import { entryBook } from '../../../storage/books/cloth-room/entry-book.js';
import { lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { presentAs } from '../../../web/api/present-as.js';
import { line, oneOf } from '../../../web/fields/fields.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../../web/forms/version.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { sentFields } from '../stock-fields.js';
import { bringInStash, takeIntoCustody } from './bring-in.js';
import { measureAgain, remarkOnLot, sendAway } from './change-lot.js';
import { CustodyFields, LeavesFields, MeasuredSent, RemarkFields, StashFields } from './lot.form.js';

const WhatComes = z.looseObject({
  materialId: line('Name the material.', 40),
  origin: oneOf(['stash', 'custody'], 'Say “stash” or “custody”; what is bought comes as a purchase.'),
});

/** Lots for programs. */
@Controller('api/lots')
export class LotsApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async list(): Promise<Reply> {
    return answer({ items: await lotBook.withSomethingLeft(this.read) });
  }

  @Post()
  async bringIn(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { materialId, origin, ...rest } = parse(WhatComes, body);
    const material = (await materialBook.all(this.read)).get(materialId);
    if (!material) throw Invalid.field('materialId', 'There is no such material.');
    const { fields, today } = await this.house();
    const { value } =
      origin === 'stash'
        ? await bringInStash(
            this.unit,
            visit,
            materialId,
            parse(StashFields(fields, material.unit, today), rest),
          )
        : await takeIntoCustody(
            this.unit,
            visit,
            materialId,
            parse(CustodyFields(fields, material.unit, today), rest),
          );
    return created(`/api/lots/${value.id}`, value);
  }

  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const lot = await lotBook.one(this.read, id);
    return answer(lot, 200, etagOf(lot.version));
  }

  @Put(':id')
  async remark(
    @Param('id') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const said = parse(RemarkFields((await this.house()).fields), body);
    const { value } = await presentAs(
      () => this.one(id),
      () => remarkOnLot(this.unit, visit, id, said, versionOfIfMatch(match)),
    );
    return answer(value, 200, etagOf(value.version));
  }

  @Post(':id/measured-again')
  async measured(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { fields, today } = await this.house();
    const { value } = await measureAgain(this.unit, visit, id, parse(MeasuredSent(fields, today), body));
    return answer(value, 200, etagOf(value.version));
  }

  @Post(':id/sent-back')
  async away(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { fields, today } = await this.house();
    const { materialId } = await lotBook.one(this.read, id);
    const { unit } = await materialBook.one(this.read, materialId);
    const { value } = await sendAway(this.unit, visit, id, parse(LeavesFields(fields, unit, today), body));
    return created(`/api/materials/${materialId}/movements/${value}`, await entryBook.one(this.read, value));
  }

  private async house() {
    const { identity } = await studioBook.the(this.read);
    return { fields: sentFields(identity), today: todayIn(this.clock, identity.zone) };
  }
}
