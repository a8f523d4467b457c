import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { purchaseBook } from '../../../storage/books/cloth-room/purchase-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { pageSize } from '../../../web/api/page-size.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { readSentPurchase } from './purchase.form.js';
import { recordPurchase } from './record-purchase.js';

/** Purchases for programs. */
@Controller('api/purchases')
export class PurchasesApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async list(
    @Query('supplier') supplier = '',
    @Query('after') after = '',
    @Query('limit') limit = '30',
  ): Promise<Reply> {
    const most = pageSize(limit, 30);
    return answer(await purchaseBook.list(this.read, supplier, most, after));
  }

  @Post()
  async record(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { identity } = await studioBook.the(this.read);
    const said = readSentPurchase(body, identity, await materialBook.all(this.read));
    const { value } = await recordPurchase(this.unit, visit, said);
    return created(`/api/purchases/${value.id}`, value);
  }

  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const purchase = await purchaseBook.one(this.read, id);
    return answer({ ...purchase, lots: await lotBook.ofPurchase(this.read, id) });
  }
}
