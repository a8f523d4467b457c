import { Body, Controller, Get, Headers, Param, Post, Put, Query } from '@nestjs/common';
import { lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { pageSize } from '../../../web/api/page-size.js';
import { presentAs } from '../../../web/api/present-as.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../../web/forms/version.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { addMaterial, correctMaterial } from './keep-material.js';
import { MaterialFields } from './material.form.js';

/** Materials for programs. */
@Controller('api/materials')
export class ClothMaterialsApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async list(
    @Query('q') asked = '',
    @Query('after') after = '',
    @Query('limit') limit = '30',
  ): Promise<Reply> {
    const most = pageSize(limit, 30);
    const { items, next } = await materialBook.find(this.read, asked, most, after);
    const onHand = await lotBook.onHand(this.read);
    return answer({ items: items.map((one) => ({ ...one, onHand: onHand.get(one.id) ?? null })), next });
  }

  @Post()
  async add(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { value } = await addMaterial(this.unit, visit, await this.said(body));
    return created(`/api/materials/${value.id}`, value);
  }

  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const material = await materialBook.one(this.read, id);
    const lots = await lotBook.ofMaterial(this.read, id);
    return answer({ ...material, lots }, 200, etagOf(material.version));
  }

  @Put(':id')
  async correct(
    @Param('id') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const said = await this.said(body);
    const { value } = await presentAs(
      () => this.one(id),
      () => correctMaterial(this.unit, visit, id, said, versionOfIfMatch(match)),
    );
    return answer(value, 200, etagOf(value.version));
  }

  private async said(body: unknown) {
    return parse(MaterialFields((await studioBook.the(this.read)).identity), body);
  }
}
