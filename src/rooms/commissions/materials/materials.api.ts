import { Body, Controller, Delete, Get, Headers, Param, Post, Put } from '@nestjs/common';
import { estimateBook } from '../../../storage/books/estimate-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { presentAs } from '../../../web/api/present-as.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../../web/forms/version.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { addMaterial, changeMaterial, materialOf, takeOutMaterial } from './change-materials.js';
import { MaterialSent } from './material.form.js';

/** The materials of a garment for programs. */
@Controller('api/garments/:garment/materials')
export class MaterialsApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async list(@Param('garment') garment: string): Promise<Reply> {
    await garmentBook.one(this.read, garment);
    return answer({ items: await estimateBook.materialsOf(this.read, garment) });
  }

  @Post()
  async add(@Param('garment') garment: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { value } = await addMaterial(this.unit, visit, garment, await this.said(body));
    const made = await materialOf(this.read, garment, value);
    return created(`/api/garments/${garment}/materials/${value}`, made);
  }

  @Get(':material')
  async one(@Param('garment') garment: string, @Param('material') id: string): Promise<Reply> {
    const one = await materialOf(this.read, garment, id);
    return answer(one, 200, etagOf(one.version));
  }

  @Put(':material')
  async change(
    @Param('garment') garment: string,
    @Param('material') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const said = await this.said(body);
    await presentAs(
      () => this.one(garment, id),
      () => changeMaterial(this.unit, visit, garment, id, said, versionOfIfMatch(match)),
    );
    return this.one(garment, id);
  }

  @Delete(':material')
  async takeOut(
    @Param('garment') garment: string,
    @Param('material') id: string,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const one = await materialOf(this.read, garment, id);
    await presentAs(
      () => this.one(garment, id),
      () => takeOutMaterial(this.unit, visit, garment, id, versionOfIfMatch(match)),
    );
    return answer(one);
  }

  private async said(body: unknown) {
    const { identity } = await studioBook.the(this.read);
    return parse(MaterialSent(identity.currency), body);
  }
}
