import { Body, Controller, Get, Headers, Param, Post, Put } from '@nestjs/common';
import { z } from 'zod';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { invoiceBook } from '../../../storage/books/papers/invoice-book.js';
import { invoiceDraftBook } from '../../../storage/books/papers/invoice-draft-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { Describe } from '../../../web/api/describe.js';
import { presentAs } from '../../../web/api/present-as.js';
import { parse } from '../../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../../web/forms/version.js';
import { answer, created, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { beginInvoice } from './drafts/begin-invoice.js';
import { EditsSent, ReadySent } from './drafts/draft.form.js';
import { draftInJson } from './drafts/draft.page.js';
import { keepInvoice, removeInvoice } from './drafts/keep-invoice.js';
import { draftOfCommission } from './invoices.controller.js';
import { invoiceInJson } from './issued/issued.page.js';
import { IssuingInvoices } from './issuing/issuing-invoices.js';

const IssueSent = z.strictObject({
  /** Codes of the findings that were looked at. */
  confirmed: z.array(z.string()).max(100, 'At most 100 of these.').default([]),
});

/** A commission's invoices for programs: laid ready, changed, issued. */
@Controller('api/commissions/:commission/invoices')
export class InvoicesApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly issuing: IssuingInvoices,
  ) {}

  @Get()
  @Describe({ summary: 'The invoices and credit notes of a commission, and those in the making' })
  async list(@Param('commission') id: string): Promise<Reply> {
    await commissionBook.one(this.read, id);
    const drafts = await invoiceDraftBook.ofCommission(this.read, id);
    const issued = await invoiceBook.ofCommission(this.read, id);
    return answer({
      drafts: drafts.map(({ id: draftId, version, choices, credits }) => ({
        id: draftId,
        version,
        kind: choices.kind,
        credits: credits ?? null,
      })),
      items: issued.map(invoiceInJson),
    });
  }

  @Post('drafts')
  @Describe({
    summary: 'Lay an invoice ready',
    description:
      'A deposit invoice, a part invoice for chosen garments, a stage by its share, or the final invoice for what is left.',
    examples: {
      deposit: { what: 'deposit' },
      stage: { what: 'stage', share: '0.3' },
      final: { what: 'final' },
    },
  })
  async begin(@Param('commission') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { share, ...asked } = parse(ReadySent, body);
    const { value } = await beginInvoice(this.unit, visit, id, { ...asked, share });
    return created(
      `/api/commissions/${id}/invoices/drafts/${value.id}`,
      draftInJson(await this.issuing.inHand(value.id)),
    );
  }

  @Get('drafts/:draft')
  @Describe({ summary: 'An invoice in the making: its lines, what it comes to, and every finding by rule' })
  async draft(@Param('commission') id: string, @Param('draft') draftId: string): Promise<Reply> {
    const { version } = await draftOfCommission(this.read, id, draftId);
    return answer(draftInJson(await this.issuing.inHand(draftId)), 200, etagOf(version));
  }

  @Put('drafts/:draft')
  @Describe({
    summary: 'Change an invoice in the making',
    examples: {
      aCourtesy: {
        lines: [
          {
            name: 'Buttons sewn on again (with our compliments)',
            quantity: '1',
            price: '0',
          },
        ],
        note: 'With thanks.',
      },
    },
  })
  async keep(
    @Param('commission') id: string,
    @Param('draft') draftId: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await draftOfCommission(this.read, id, draftId);
    const { identity } = await studioBook.the(this.read);
    const edits = parse(EditsSent(identity.currency), body);
    const { value } = await presentAs(
      () => this.draft(id, draftId),
      () => keepInvoice(this.unit, visit, draftId, edits, versionOfIfMatch(match)),
    );
    return answer(draftInJson(await this.issuing.inHand(draftId)), 200, etagOf(value.version));
  }

  @Post('drafts/:draft/remove')
  @Describe({ summary: 'Put an invoice in the making away' })
  async remove(
    @Param('commission') id: string,
    @Param('draft') draftId: string,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await draftOfCommission(this.read, id, draftId);
    await presentAs(
      () => this.draft(id, draftId),
      () => removeInvoice(this.unit, visit, draftId, versionOfIfMatch(match)),
    );
    return answer({ removed: true });
  }

  @Post('drafts/:draft/issue')
  @Describe({
    summary: 'Issue an invoice: number, bytes and hash in one act, for good',
    examples: { looked: { confirmed: ['supply-date'] } },
  })
  async issue(
    @Param('commission') id: string,
    @Param('draft') draftId: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { confirmed } = parse(IssueSent, body ?? {});
    const { value } = await presentAs(
      () => this.draft(id, draftId),
      () => this.issuing.issue(visit, draftId, confirmed, versionOfIfMatch(match)),
    );
    return created(`/api/papers/${value}`, invoiceInJson(await invoiceBook.one(this.read, value)));
  }
}
