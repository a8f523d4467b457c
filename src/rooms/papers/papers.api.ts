import { Controller, Get, Param, Query } from '@nestjs/common';
import { invoiceBook } from '../../storage/books/papers/invoice-book.js';
import { quoteBook } from '../../storage/books/papers/quote-book.js';
import { sentBook } from '../../storage/books/papers/sent-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../storage/clock.js';
import { ReadSide } from '../../storage/read-side.js';
import { pageSize } from '../../web/api/page-size.js';
import { quoteInJson } from '../../web/papers/quote-in-json.js';
import { answer, type Reply } from '../../web/reply.js';
import { findPapers } from './find-papers.js';
import { invoiceInJson } from './invoices/issued/issued.page.js';
import { endingOf, invoiceFile } from './invoices/issued/paper-file.js';
import { pdfOf } from './pdf-of.js';

/** Papers for programs. */
@Controller('api/papers')
export class PapersApi {
  constructor(
    private readonly read: ReadSide,
    private readonly clock: Clock,
  ) {}

  @Get()
  async list(
    @Query('q') asked = '',
    @Query('after') after = '',
    @Query('limit') limit = '20',
  ): Promise<Reply> {
    const most = pageSize(limit, 20);
    const { items, next } = await findPapers(this.read, asked, most, after);
    const today = await this.today();
    return answer({
      items: items.map((paper) =>
        paper.is === 'quote' ? quoteInJson(paper.quote, today) : invoiceInJson(paper.invoice),
      ),
      next: next ?? null,
    });
  }

  /**
   * A paper with its business terms, its words and what it rested on; with `.pdf`, `.ubl.xml` or `.cii.xml` behind its id,
   * that file.
   */
  @Get(':id')
  async one(@Param('id') id: string): Promise<Reply> {
    const { id: invoiceId, ending } = endingOf(id);
    const invoice = await invoiceBook.maybe(this.read, invoiceId);
    if (invoice) {
      if (ending) return invoiceFile(this.read, invoiceId, ending);
      return answer({
        ...invoiceInJson(invoice),
        document: JSON.parse(invoice.document),
        sent: await sentBook.of(this.read, invoiceId),
      });
    }
    if (id.endsWith('.pdf')) return pdfOf(this.read, id.slice(0, -'.pdf'.length));
    const quote = await quoteBook.one(this.read, id);
    return answer({
      ...quoteInJson(quote, await this.today()),
      document: JSON.parse(quote.document),
      costs: JSON.parse(quote.costs),
    });
  }

  private async today(): Promise<string> {
    return todayIn(this.clock, (await studioBook.the(this.read)).identity.zone);
  }
}
