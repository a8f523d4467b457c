import { Injectable } from '@nestjs/common';
import type { StudioIdentity } from '../../../domain/house/studio.js';
import type { PaperStanding } from '../../../domain/papers/settlement/account.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { type ClientAccount, clientAccountBook } from '../../../storage/books/papers/client-account-book.js';
import { type KeptPayment, paymentBook } from '../../../storage/books/papers/payment-book.js';
import { bankBook } from '../../../storage/books/payments/bank-book.js';
import { receiptBook } from '../../../storage/books/payments/receipt-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { moneyForField } from '../../../web/words/amounts.js';
import type { PaymentTold } from './payment.page.js';
import { wentTo } from './went-to.js';

/** What the pages and the JSON of payments read. */
@Injectable()
export class PaymentDesk {
  constructor(
    readonly read: ReadSide,
    private readonly clock: Clock,
  ) {}

  async house(): Promise<{ identity: StudioIdentity; today: string }> {
    const { identity } = await studioBook.the(this.read);
    return { identity, today: todayIn(this.clock, identity.zone) };
  }

  /** @throws NotFound */
  async account(clientId: string): Promise<ClientAccount> {
    await clientBook.one(this.read, clientId);
    return clientAccountBook.of(this.read, clientId);
  }

  commissionsOf(clientId: string) {
    return clientAccountBook.commissionsOf(this.read, clientId);
  }

  /** @throws NotFound */
  async told(id: string): Promise<PaymentTold> {
    const payment = await paymentBook.one(this.read, id);
    const commission = (await this.commissionsOf(payment.clientId)).find(
      ({ id: one }) => one === payment.commissionId,
    );
    return {
      payment,
      went: await wentTo(this.read, payment),
      receipt: await receiptBook.ofPayment(this.read, id),
      commission,
      statement: (await bankBook.ofPayment(this.read, id))?.importId,
      ...(await this.house()),
    };
  }

  /** A payment, and the papers its money could go to: the open ones, and those it is on now. */
  async moving(
    id: string,
  ): Promise<{ payment: KeptPayment; papers: PaperStanding[]; now: Record<string, string> }> {
    const payment = await paymentBook.one(this.read, id);
    const { account } = await this.account(payment.clientId);
    const went = new Map(
      (await wentTo(this.read, payment)).flatMap(({ paperId, amount }) =>
        paperId ? [[paperId, amount] as const] : [],
      ),
    );
    const { identity } = await this.house();
    // What it holds on a paper counts as open again while it is being moved.
    const papers = account.papers.map((paper) => {
      const mine = went.get(paper.id);
      return mine ? { ...paper, open: paper.open.plus(mine) } : paper;
    });
    const now = Object.fromEntries(
      [...went].map(([paper, amount]) => [`part.${paper}`, moneyForField(amount, identity.locale)]),
    );
    return { payment, papers: papers.filter(({ open }) => open.minor > 0), now };
  }
}
