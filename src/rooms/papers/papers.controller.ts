import { Controller, Get, Param, Query } from '@nestjs/common';
import { invoiceBook } from '../../storage/books/papers/invoice-book.js';
import { quoteBook } from '../../storage/books/papers/quote-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../storage/clock.js';
import { ReadSide } from '../../storage/read-side.js';
import { page, type Reply } from '../../web/reply.js';
import { AccountDesk } from './accounts/account-desk.js';
import { findPapers } from './find-papers.js';
import { groundworkOf } from './invoices/drafts/begin-invoice.js';
import { mayAskDeposit } from './invoices/invoices.page.js';
import { tellIssued } from './invoices/issued/issued.controller.js';
import { issuedPage, sentForm } from './invoices/issued/issued.page.js';
import { endingOf, invoiceFile } from './invoices/issued/paper-file.js';
import { type Manner, paperPage, papersPage } from './papers.page.js';
import { pdfOf } from './pdf-of.js';

/** The Papers room: everything that went out, as it went out. */
@Controller('papers')
export class PapersController {
  constructor(
    private readonly read: ReadSide,
    private readonly clock: Clock,
    private readonly accounts: AccountDesk,
  ) {}

  @Get()
  async list(@Query('q') asked = '', @Query('after') after = ''): Promise<Reply> {
    const found = await findPapers(this.read, asked, 20, after);
    // The figures stand on the first page alone; looking for a paper does not work them out.
    const held = asked || after ? undefined : await this.accounts.held();
    return page('paper-room/list', papersPage(found, asked, after, await this.manner(), held));
  }

  /** A paper's page; with `.pdf`, `.ubl.xml` or `.cii.xml` behind its id, that file. */
  @Get(':id')
  async one(@Param('id') asked: string): Promise<Reply> {
    const { id: invoiceId, ending } = endingOf(asked);
    if (await invoiceBook.isThere(this.read, invoiceId)) {
      if (ending) return invoiceFile(this.read, invoiceId, ending);
      const told = await tellIssued(this.read, this.clock, invoiceId);
      const { template, words } = issuedPage(sentForm(told), told);
      return page(template, words);
    }
    const id = asked;
    if (id.endsWith('.pdf')) return pdfOf(this.read, id.slice(0, -'.pdf'.length));
    const quote = await quoteBook.one(this.read, id);
    const mayAsk = mayAskDeposit({
      ...(await groundworkOf(this.read, quote.commissionId)),
      settings: (await studioBook.the(this.read)).papers,
    });
    return page('paper-room/quote', paperPage(quote, await this.manner(), mayAsk));
  }

  private async manner(): Promise<Manner> {
    const { identity } = await studioBook.the(this.read);
    return { today: todayIn(this.clock, identity.zone), locale: identity.locale, zone: identity.zone };
  }
}
