import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { NotFound } from '../../../domain/kernel/errors.js';
import { invoiceBook } from '../../../storage/books/papers/invoice-book.js';
import { invoiceDraftBook } from '../../../storage/books/papers/invoice-draft-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Reading, Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { submit, versionSeen } from '../../../web/forms/form.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { beginInvoice, groundworkOf } from './drafts/begin-invoice.js';
import { readEdits, readReady, tidyInvoice, typedInvoice } from './drafts/draft.form.js';
import { draftPage, invoiceForm } from './drafts/draft.page.js';
import { keepInvoice, removeInvoice } from './drafts/keep-invoice.js';
import { invoiceDraftUrl, invoicesUrl } from './invoice-words.js';
import { type InvoicesTold, invoicesPage, readyForm } from './invoices.page.js';
import { IssuingInvoices } from './issuing/issuing-invoices.js';

/** A draft of this commission. @throws NotFound also when it is another commission's */
export const draftOfCommission = async (reading: Reading, commissionId: string, id: string) => {
  const draft = await invoiceDraftBook.one(reading, id);
  if (draft.commissionId !== commissionId) throw new NotFound('draft of this commission');
  return draft;
};

/** The invoices of a commission, and the drafts they begin as. */
@Controller('commissions/:commission/invoices')
export class InvoicesController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly issuing: IssuingInvoices,
  ) {}

  @Get()
  async list(@Param('commission') id: string): Promise<Reply> {
    const { template, words } = invoicesPage(readyForm(), await this.told(id));
    return page(template, words);
  }

  /** Lays an invoice ready: the deposit, chosen garments, a stage, or what is left. */
  @Post()
  async begin(@Param('commission') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { value, act } = await beginInvoice(this.unit, visit, id, readReady(typed));
        return seeOther(invoiceDraftUrl(id, value.id), act);
      },
      async (form) => invoicesPage(form, await this.told(id)),
    );
  }

  @Get('drafts/:draft')
  async draft(@Param('commission') id: string, @Param('draft') draftId: string): Promise<Reply> {
    await draftOfCommission(this.read, id, draftId);
    const told = await this.issuing.inHand(draftId);
    const { template, words } = draftPage(invoiceForm(told), told, await this.credited(told.kept.credits));
    return page(template, words);
  }

  @Post('drafts/:draft')
  async keep(
    @Param('commission') id: string,
    @Param('draft') draftId: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await draftOfCommission(this.read, id, draftId);
    const typed = tidyInvoice(typedOf(body));
    const { identity } = await studioBook.the(this.read);
    const after = typed.then === 'check' ? '/check' : typed.then === 'preview' ? '/preview' : '';
    return submit(
      typed,
      async () => {
        const edits = readEdits(typed, identity);
        const { act } = await keepInvoice(this.unit, visit, draftId, edits, versionSeen(typed));
        return seeOther(`${invoiceDraftUrl(id, draftId)}${after}`, act);
      },
      async (form) => {
        const told = await this.issuing.inHand(draftId);
        return draftPage(form, told, await this.credited(told.kept.credits));
      },
      async () => typedInvoice((await invoiceDraftBook.one(this.read, draftId)).choices, identity.locale),
    );
  }

  @Post('drafts/:draft/remove')
  async remove(
    @Param('commission') id: string,
    @Param('draft') draftId: string,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await draftOfCommission(this.read, id, draftId);
    const { act } = await removeInvoice(this.unit, visit, draftId);
    return seeOther(invoicesUrl(id), act);
  }

  private async told(id: string): Promise<InvoicesTold> {
    const studio = await studioBook.the(this.read);
    return {
      ...(await groundworkOf(this.read, id)),
      issued: await invoiceBook.ofCommission(this.read, id),
      drafts: await invoiceDraftBook.ofCommission(this.read, id),
      settings: studio.papers,
      locale: studio.identity.locale,
    };
  }

  private async credited(id: string | undefined) {
    return id === undefined ? undefined : invoiceBook.one(this.read, id);
  }
}
