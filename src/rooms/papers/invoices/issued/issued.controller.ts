import { Body, Controller, Param, Post } from '@nestjs/common';
import { clientAccountBook } from '../../../../storage/books/papers/client-account-book.js';
import { invoiceBook } from '../../../../storage/books/papers/invoice-book.js';
import { sentBook } from '../../../../storage/books/papers/sent-book.js';
import { studioBook } from '../../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../../storage/clock.js';
import { ReadSide } from '../../../../storage/read-side.js';
import type { Reading, Visit } from '../../../../storage/session.js';
import { UnitOfWork } from '../../../../storage/unit-of-work.js';
import { submit } from '../../../../web/forms/form.js';
import { parseForm } from '../../../../web/forms/parse.js';
import { typedOf } from '../../../../web/forms/typed.js';
import { type Reply, seeOther } from '../../../../web/reply.js';
import { Hand } from '../../../../web/visit.js';
import { beginCredit } from '../drafts/begin-invoice.js';
import { invoiceDraftUrl, paperUrl } from '../invoice-words.js';
import { type IssuedTold, issuedPage } from './issued.page.js';
import { SentFields, sendPaper } from './send-paper.js';

/** Gathers what an issued invoice's page tells. @throws NotFound */
export const tellIssued = async (reading: Reading, clock: Clock, id: string): Promise<IssuedTold> => {
  const paper = await invoiceBook.one(reading, id);
  const { identity } = await studioBook.the(reading);
  const cited = await Promise.all(paper.cites.map((each) => invoiceBook.one(reading, each)));
  return {
    paper,
    cited,
    citing: await invoiceBook.citing(reading, id),
    standing: (await clientAccountBook.of(reading, paper.clientId)).account.papers.find(
      (one) => one.id === id,
    ),
    sent: await sentBook.of(reading, id),
    mayWrite: identity.email !== '',
    today: todayIn(clock, identity.zone),
    locale: identity.locale,
    zone: identity.zone,
  };
};

/** What happens to an invoice after it went out: it is sent, or given back. */
@Controller('papers/:paper')
export class IssuedController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Post('credit')
  async credit(@Param('paper') id: string, @Hand() visit: Visit): Promise<Reply> {
    const { value, act } = await beginCredit(this.unit, visit, id);
    return seeOther(invoiceDraftUrl(value.commissionId ?? '', value.id), act);
  }

  @Post('sent')
  async sent(@Param('paper') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const said = parseForm(SentFields, typed);
        const { act } = await sendPaper(this.unit, this.clock, visit, id, said);
        return seeOther(paperUrl(id), act);
      },
      async (form) => issuedPage(form, await tellIssued(this.read, this.clock, id)),
    );
  }
}
