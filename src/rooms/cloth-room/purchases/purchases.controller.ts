import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import type { FormModel } from '../../../printing/templates/page-model.js';
import {
  type AcceptedLine,
  acceptedLines,
  quotedUnitCosts,
} from '../../../storage/books/cloth-room/accepted-lines.js';
import { lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { purchaseBook } from '../../../storage/books/cloth-room/purchase-book.js';
import { supplierBook } from '../../../storage/books/cloth-room/supplier-book.js';
import { paidOutBook, purchaseSubject } from '../../../storage/books/money-out/paid-out-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit } from '../../../web/forms/form.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { purchaseUrl } from '../cloth-room.page.js';
import { shoppingList } from '../shopping/shopping-list.js';
import { readPurchase, tidyLines } from './purchase.form.js';
import { purchaseFormPage, purchasePage, purchasesPage } from './purchase.page.js';
import { recordPurchase } from './record-purchase.js';

const MOST_OFFERED = 100;

/** What was bought. */
@Controller('cloth-room/purchases')
export class PurchasesController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  async list(@Query('supplier') supplier = '', @Query('after') after = ''): Promise<Reply> {
    const { identity } = await studioBook.the(this.read);
    const found = await purchaseBook.list(this.read, supplier, 30, after);
    const names = new Map((await supplierBook.find(this.read)).map(({ id, name }) => [id, name]));
    return page('cloth-room/purchases/list', purchasesPage(found, names, identity, { supplier, after }));
  }

  @Get('new')
  async form(
    @Query('line') lineId = '',
    @Query('material') materialId = '',
    @Query('supplier') supplierId = '',
  ): Promise<Reply> {
    const { identity } = await studioBook.the(this.read);
    const values = {
      supplierId,
      boughtOn: todayIn(this.clock, identity.zone),
      sharedBy: 'value',
      taxRecoverable: 'yes',
      'lines.0.materialId': materialId,
      'lines.0.lineId': lineId,
    };
    const { template, words } = await this.drawn(freshForm('', values));
    return page(template, words);
  }

  @Post()
  record(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = tidyLines(typedOf(body));
    return submit(
      typed,
      async () => {
        const { identity } = await studioBook.the(this.read);
        const said = readPurchase(typed, identity, await materialBook.all(this.read));
        const { value, act } = await recordPurchase(this.unit, visit, said);
        return seeOther(purchaseUrl(value.id), act);
      },
      (form) => this.drawn(form),
    );
  }

  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const purchase = await purchaseBook.one(this.read, id);
    const lots = await lotBook.ofPurchase(this.read, id);
    const all = lots.some(({ lineId }) => lineId) ? await acceptedLines(this.read) : [];
    const waiting = all.filter((line) => lots.some(({ lineId }) => lineId === line.id));
    const quoted = await quotedUnitCosts(
      this.read,
      waiting.map(({ quoteId }) => quoteId),
    );
    const about = purchaseSubject(id);
    const words = purchasePage({
      purchase,
      paid: (await paidOutBook.of(this.read, [about])).get(about),
      supplier: await supplierBook.one(this.read, purchase.supplierId),
      lots,
      materials: await materialBook.all(this.read),
      others: await purchaseBook.ofOrder(this.read, purchase),
      waiting,
      quoted,
      identity: (await studioBook.the(this.read)).identity,
    });
    return page('cloth-room/purchases/purchase', words);
  }

  /** What is still to be bought, the soonest needed first, and whatever the form names already. */
  private async waiting(values: FormModel['values'], currency: string): Promise<AcceptedLine[]> {
    const named = new Set(
      Object.entries(values).flatMap(([name, id]) => (name.endsWith('.lineId') ? id : [])),
    );
    const lines = (await shoppingList(this.read, currency))
      .flatMap(({ items }) => items.map(({ line }) => line))
      .toSorted((a, b) => (a.dueOn ?? '9999').localeCompare(b.dueOn ?? '9999'));
    return lines.filter(({ id }, place) => place < MOST_OFFERED || named.has(id));
  }

  private async drawn(form: FormModel) {
    const { identity } = await studioBook.the(this.read);
    return purchaseFormPage(form, {
      suppliers: await supplierBook.find(this.read),
      materials: [...(await materialBook.all(this.read)).values()],
      waiting: await this.waiting(form.values, identity.currency),
      identity,
    });
  }
}
