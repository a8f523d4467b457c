import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { ReadSide } from '../../../../storage/read-side.js';
import type { Visit } from '../../../../storage/session.js';
import { freshForm, submit, versionSeen } from '../../../../web/forms/form.js';
import { typedOf } from '../../../../web/forms/typed.js';
import { file, page, type Reply, seeOther } from '../../../../web/reply.js';
import { Hand } from '../../../../web/visit.js';
import { crumbsOf } from '../drafts/draft.page.js';
import { draftName, invoiceDraftUrl, paperUrl } from '../invoice-words.js';
import { draftOfCommission } from '../invoices.controller.js';
import { checkPage } from './check.page.js';
import { IssuingInvoices } from './issuing-invoices.js';

/** From a draft to a paper: looked at, checked, issued. */
@Controller('commissions/:commission/invoices/drafts/:draft')
export class IssuingInvoicesController {
  constructor(
    private readonly read: ReadSide,
    private readonly issuing: IssuingInvoices,
  ) {}

  @Get('preview')
  async preview(@Param('commission') id: string, @Param('draft') draftId: string): Promise<Reply> {
    await draftOfCommission(this.read, id, draftId);
    const told = await this.issuing.inHand(draftId);
    const url = invoiceDraftUrl(id, draftId);
    return page('paper-room/invoices/preview', {
      title: 'Preview, not issued',
      room: 'papers',
      crumbs: [...(crumbsOf(told) ?? []), { text: draftName(told.kept.choices.kind), href: url }],
      sheet: this.issuing.previewSheet(told),
      pdf: `${url}/preview.pdf`,
      check: `${url}/check`,
      draft: url,
    });
  }

  @Get('preview.pdf')
  async previewPdf(@Param('commission') id: string, @Param('draft') draftId: string): Promise<Reply> {
    await draftOfCommission(this.read, id, draftId);
    const bytes = await this.issuing.previewPdf(draftId);
    return file(bytes, 'application/pdf', 'Preview, not issued.pdf', true);
  }

  @Get('check')
  async check(@Param('commission') id: string, @Param('draft') draftId: string): Promise<Reply> {
    await draftOfCommission(this.read, id, draftId);
    const told = await this.issuing.inHand(draftId);
    const { template, words } = checkPage(freshForm('', {}, told.kept.version), told);
    return page(template, words);
  }

  @Post('issue')
  issue(@Param('draft') draftId: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const confirmed = Object.entries(typed)
      .filter(([name, value]) => name.startsWith('confirm.') && value === 'yes')
      .map(([name]) => name.slice('confirm.'.length));
    return submit(
      typed,
      async () => {
        const { value, act } = await this.issuing.issue(visit, draftId, confirmed, versionSeen(typed));
        return seeOther(paperUrl(value), act);
      },
      async (form) => checkPage(form, await this.issuing.inHand(draftId)),
    );
  }
}
