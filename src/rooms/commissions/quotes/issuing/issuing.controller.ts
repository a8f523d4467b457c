import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import type { Visit } from '../../../../storage/session.js';
import { freshForm, submit, versionSeen } from '../../../../web/forms/form.js';
import { typedOf } from '../../../../web/forms/typed.js';
import { file, page, type Reply, seeOther } from '../../../../web/reply.js';
import { Hand } from '../../../../web/visit.js';
import { commissionCrumbs } from '../../commission.page.js';
import { draftName, draftUrl } from '../drafts/draft.page.js';
import { paperUrl, quotesUrl } from '../quotes.page.js';
import { checkPage } from './check.page.js';
import { Issuing } from './issuing.js';

/** From a draft to a paper: looked at, checked, issued. */
@Controller('commissions/:commission/quotes/drafts/:draft')
export class IssuingController {
  constructor(private readonly issuing: Issuing) {}

  @Get('preview')
  async preview(@Param('commission') id: string, @Param('draft') draftId: string): Promise<Reply> {
    const { kept, hand } = await this.issuing.inHand(id, draftId);
    const url = draftUrl(id, draftId);
    return page('commissions/quotes/preview', {
      title: 'Preview, not issued',
      room: 'commissions',
      crumbs: [
        ...commissionCrumbs(hand.commission),
        { text: 'Quotes', href: quotesUrl(id) },
        { text: draftName(kept, hand.paper.version), href: url },
      ],
      sheet: this.issuing.previewSheet(hand),
      pdf: `${url}/preview.pdf`,
      check: `${url}/check`,
      draft: url,
    });
  }

  @Get('preview.pdf')
  async previewPdf(@Param('commission') id: string, @Param('draft') draftId: string): Promise<Reply> {
    const bytes = await this.issuing.previewPdf(id, draftId);
    return file(bytes, 'application/pdf', 'Preview, not issued.pdf', true);
  }

  @Get('check')
  async check(@Param('commission') id: string, @Param('draft') draftId: string): Promise<Reply> {
    const { kept, hand } = await this.issuing.inHand(id, draftId);
    const { template, words } = checkPage(freshForm('', {}, kept.version), kept, hand);
    return page(template, words);
  }

  @Post('issue')
  issue(
    @Param('commission') id: string,
    @Param('draft') draftId: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { value, act } = await this.issuing.issue(
          visit,
          id,
          draftId,
          confirmedIn(typed),
          versionSeen(typed),
        );
        return seeOther(paperUrl(value), act);
      },
      async (form) => {
        const { kept, hand } = await this.issuing.inHand(id, draftId);
        return checkPage(form, kept, hand);
      },
    );
  }
}

/** The findings that were looked at and answered with yes. */
const confirmedIn = (typed: Readonly<Record<string, string>>): string[] =>
  Object.entries(typed)
    .filter(([name, value]) => name.startsWith('confirm.') && value === 'yes')
    .map(([name]) => name.slice('confirm.'.length));
