import { Body, Controller, Param, Post } from '@nestjs/common';
import { sentBook } from '../../../../storage/books/papers/sent-book.js';
import { Clock } from '../../../../storage/clock.js';
import { ReadSide } from '../../../../storage/read-side.js';
import type { Visit } from '../../../../storage/session.js';
import { UnitOfWork } from '../../../../storage/unit-of-work.js';
import { Describe } from '../../../../web/api/describe.js';
import { parse } from '../../../../web/forms/parse.js';
import { created, type Reply } from '../../../../web/reply.js';
import { Hand } from '../../../../web/visit.js';
import { beginCredit } from '../drafts/begin-invoice.js';
import { draftInJson } from '../drafts/draft.page.js';
import { IssuingInvoices } from '../issuing/issuing-invoices.js';
import { SentFields, sendPaper } from './send-paper.js';

/** What happens to an issued invoice, for programs. */
@Controller('api/papers/:paper')
export class IssuedApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
    private readonly issuing: IssuingInvoices,
  ) {}

  @Post('credit')
  @Describe({ summary: 'Lay a credit note on an issued invoice ready' })
  async credit(@Param('paper') id: string, @Hand() visit: Visit): Promise<Reply> {
    const { value } = await beginCredit(this.unit, visit, id);
    return created(
      `/api/commissions/${value.commissionId ?? ''}/invoices/drafts/${value.id}`,
      draftInJson(await this.issuing.inHand(value.id)),
    );
  }

  @Post('sent')
  @Describe({
    summary: 'Write down that a paper was sent, with the hash of its bytes',
    examples: { byMail: { sentOn: '2026-03-02', toWhom: 'Corvin Haddlestone', how: 'by mail' } },
  })
  async sent(@Param('paper') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    await sendPaper(this.unit, this.clock, visit, id, parse(SentFields, body));
    return created(`/api/papers/${id}`, { sent: await sentBook.of(this.read, id) });
  }
}
