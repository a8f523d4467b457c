import { Body, Controller, Get, Headers, Param, Post, Put, Query } from '@nestjs/common';
import { supplierBook } from '../../../storage/books/cloth-room/supplier-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { presentAs } from '../../../web/api/present-as.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../../web/forms/version.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { addSupplier, correctSupplier } from './keep-supplier.js';
import { SupplierFields } from './supplier.form.js';

/** Suppliers for programs. */
@Controller('api/suppliers')
export class SuppliersApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async list(@Query('q') asked = ''): Promise<Reply> {
    return answer({ items: await supplierBook.find(this.read, asked) });
  }

  @Post()
  async add(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { value } = await addSupplier(this.unit, visit, parse(SupplierFields, body));
    return created(`/api/suppliers/${value.id}`, value);
  }

  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const supplier = await supplierBook.one(this.read, id);
    return answer(supplier, 200, etagOf(supplier.version));
  }

  @Put(':id')
  async correct(
    @Param('id') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const said = parse(SupplierFields, body);
    const { value } = await presentAs(
      () => this.one(id),
      () => correctSupplier(this.unit, visit, id, said, versionOfIfMatch(match)),
    );
    return answer(value, 200, etagOf(value.version));
  }
}
