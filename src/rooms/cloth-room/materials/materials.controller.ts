import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { openPromises } from '../../../domain/stock/promised.js';
import { entryBook } from '../../../storage/books/cloth-room/entry-book.js';
import { lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { reservationBook } from '../../../storage/books/cloth-room/reservation-book.js';
import { garmentsNamed } from '../../../storage/books/cloth-room/served-garments.js';
import { supplierBook } from '../../../storage/books/cloth-room/supplier-book.js';
import { photoBook } from '../../../storage/books/fitting/photo-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit, versionSeen } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { materialUrl } from '../cloth-room.page.js';
import { addMaterial, correctMaterial } from './keep-material.js';
import { MaterialFields, typedMaterial } from './material.form.js';
import { materialFormPage, materialPage } from './material.page.js';

/** The materials of the workroom. */
@Controller('cloth-room/materials')
export class ClothMaterialsController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get('new')
  async newMaterial(): Promise<Reply> {
    const { identity } = await studioBook.the(this.read);
    const form = freshForm('', { kind: 'cloth', unit: identity.clothUnit, method: 'lot' });
    const { template, words } = materialFormPage(form, await supplierBook.find(this.read));
    return page(template, words);
  }

  @Post()
  add(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { value, act } = await addMaterial(this.unit, visit, await this.said(typed));
        return seeOther(materialUrl(value.id), act);
      },
      async (form) => materialFormPage(form, await supplierBook.find(this.read)),
    );
  }

  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const material = await materialBook.one(this.read, id);
    const { identity } = await studioBook.the(this.read);
    const supplier = material.supplierId ? await supplierBook.one(this.read, material.supplierId) : undefined;
    const lots = await lotBook.ofMaterial(this.read, id);
    const entries = await entryBook.ofMaterial(this.read, id, 50);
    const promises = openPromises(
      await reservationBook.ofMaterial(this.read, id),
      await reservationBook.movementsOf(this.read, id),
    );
    const garments = await garmentsNamed(
      this.read,
      promises.map(({ garmentId }) => garmentId),
    );
    const swatches = await photoBook.about(this.read, `material/${id}`, 3);
    return page(
      'cloth-room/materials/material',
      materialPage({ material, supplier, lots, entries, promises, garments, identity, swatches }),
    );
  }

  @Get(':id/correct')
  async correctForm(@Param('id') id: string): Promise<Reply> {
    const material = await materialBook.one(this.read, id);
    const form = freshForm('', typedMaterial(material), material.version);
    const { template, words } = materialFormPage(form, await supplierBook.find(this.read), material);
    return page(template, words);
  }

  @Post(':id')
  correct(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = await this.said(typed);
        const { act } = await correctMaterial(this.unit, visit, id, said, versionSeen(typed));
        return seeOther(materialUrl(id), act);
      },
      async (form) =>
        materialFormPage(form, await supplierBook.find(this.read), await materialBook.one(this.read, id)),
      async () => typedMaterial(await materialBook.one(this.read, id)),
    );
  }

  private async said(typed: ReturnType<typeof typedOf>) {
    return parseForm(MaterialFields((await studioBook.the(this.read)).identity), typed);
  }
}
