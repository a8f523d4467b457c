import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { supplierBook } from '../../../storage/books/cloth-room/supplier-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit, versionSeen } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { supplierUrl } from '../cloth-room.page.js';
import { addSupplier, correctSupplier } from './keep-supplier.js';
import { SupplierFields, typedSupplier } from './supplier.form.js';
import { supplierFormPage, suppliersPage } from './supplier.page.js';

/** Whom cloth is bought from. */
@Controller('cloth-room/suppliers')
export class SuppliersController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async list(): Promise<Reply> {
    return page('cloth-room/suppliers/list', suppliersPage(await supplierBook.find(this.read)));
  }

  @Get('new')
  newSupplier(): Reply {
    const { template, words } = supplierFormPage(freshForm(''));
    return page(template, words);
  }

  @Post()
  add(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { act } = await addSupplier(this.unit, visit, parseForm(SupplierFields, typed));
        return seeOther('/cloth-room/suppliers', act);
      },
      (form) => supplierFormPage(form),
    );
  }

  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const supplier = await supplierBook.one(this.read, id);
    const { template, words } = supplierFormPage(
      freshForm('', typedSupplier(supplier), supplier.version),
      supplier,
    );
    return page(template, words);
  }

  @Post(':id')
  correct(@Param('id') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(SupplierFields, typed);
        const { act } = await correctSupplier(this.unit, visit, id, said, versionSeen(typed));
        return seeOther(supplierUrl(id), act);
      },
      async (form) => supplierFormPage(form, await supplierBook.one(this.read, id)),
      async () => typedSupplier(await supplierBook.one(this.read, id)),
    );
  }
}
