import { Injectable } from '@nestjs/common';
import { garmentStanding } from '../../../domain/commissions/garment-mark.js';
import type { Studio } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Money } from '../../../domain/kernel/money.js';
import { openOf } from '../../../domain/papers/settlement/account.js';
import { type Age, owedByAge } from '../../../domain/papers/settlement/balance.js';
import {
  type DepositGarment,
  depositHeld,
  paidAhead,
} from '../../../domain/papers/settlement/deposits-held.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { type ClientAccount, clientAccountBook } from '../../../storage/books/papers/client-account-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { keptIn } from '../../../storage/session.js';
import { agreedOf } from '../invoices/agreed-of.js';

/** What one client owes, by age. */
export type OwedRow = {
  readonly clientId: string;
  readonly clientName: string;
  readonly ages: readonly { readonly age: Age; readonly amount: Money }[];
  readonly owed: Money;
};

/** What is held for clients: deposits of garments not handed over, and other money of theirs. */
export type Held = { readonly deposits: Money; readonly credit: Money; readonly owed: Money };

/** What the pages and the JSON of accounts read. */
@Injectable()
export class AccountDesk {
  constructor(
    readonly read: ReadSide,
    private readonly clock: Clock,
  ) {}

  async house() {
    const studio = await studioBook.the(this.read);
    return { studio, identity: studio.identity, today: todayIn(this.clock, studio.identity.zone) };
  }

  /** @throws NotFound */
  async client(clientId: string) {
    const client = await clientBook.one(this.read, clientId);
    return { client, of: await clientAccountBook.of(this.read, clientId) };
  }

  /** Everybody who owes something, by name, and all of it by age. */
  async owed(): Promise<{ rows: OwedRow[]; all: OwedRow['ages']; sum: Money; today: CalendarDate }> {
    const { identity, today } = await this.house();
    const accounts = await clientAccountBook.all(this.read);
    const owing = accounts.filter(({ account }) => account.owed.minor > 0);
    const open = owing.map(({ account }) => openOf(account));
    return {
      rows: owing.map(({ clientId, clientName, account }, place) => ({
        clientId,
        clientName,
        ages: owedByAge(open[place] ?? [], today, identity.currency),
        owed: account.owed,
      })),
      all: owedByAge(open.flat(), today, identity.currency),
      sum: Money.sum(
        owing.map(({ account }) => account.owed),
        identity.currency,
      ),
      today,
    };
  }

  /** Deposits held, other money of clients, and what clients owe, over everybody. */
  async held(): Promise<Held> {
    return keptIn(this.read, 'held for clients', async () => {
      const { identity } = await this.house();
      const zero = Money.zero(identity.currency);
      let [deposits, credit, owed] = [zero, zero, zero];
      for (const of of await clientAccountBook.all(this.read)) {
        const theirs = await this.depositsOf(of);
        deposits = deposits.plus(theirs.all);
        // A payment on account of a commission is a deposit as long as the garment is here: it counts once.
        credit = credit.plus(of.account.credit).minus(theirs.onAccount);
        owed = owed.plus(of.account.owed);
      }
      return { deposits, credit, owed };
    });
  }

  /** The deposits held for one client, and how much of them went to no invoice yet. */
  async depositsOf(of: ClientAccount): Promise<{ all: Money; onAccount: Money }> {
    const { studio, identity } = await this.house();
    const { currency } = identity;
    const depositKeys = new Set(
      [...of.kinds].flatMap(([id, kind]) => (kind === 'deposit-invoice' ? [id] : [])),
    );
    const commissions = new Set([
      ...of.account.papers.flatMap(({ id, commissionId }) =>
        depositKeys.has(id) && commissionId ? [commissionId] : [],
      ),
      ...of.account.payments.flatMap(({ left, kind, commissionId }) =>
        kind === 'payment' && left.minor > 0 && commissionId ? [commissionId] : [],
      ),
    ]);
    let all = Money.zero(currency);
    let onAccount = Money.zero(currency);
    for (const id of commissions) {
      const ahead = paidAhead(of.account, id, depositKeys, currency);
      if (ahead.isZero()) continue;
      const held = depositHeld(ahead, await this.garmentsOf(id, studio), studio.papers.taking);
      const loose = paidAhead(of.account, id, new Set(), currency);
      all = all.plus(held);
      onAccount = onAccount.plus(loose.compare(held) < 0 ? loose : held);
    }
    return { all, onAccount };
  }

  /** Which garments of a commission were handed over, at their agreed prices. Cancelled ones keep no deposit. */
  private async garmentsOf(commissionId: string, studio: Studio): Promise<DepositGarment[]> {
    const garments = await garmentBook.ofCommission(this.read, commissionId);
    const marks = await garmentMarkBook.ofGarments(
      this.read,
      garments.map(({ id }) => id),
    );
    const standings = garments
      .map(({ id }) => ({ id, standing: garmentStanding(marks.get(id) ?? []) }))
      .filter(({ standing }) => standing !== 'cancelled');
    const zero = Money.zero(studio.identity.currency);
    if (!standings.some(({ standing }) => standing === 'delivered' || standing === 'closed'))
      return standings.map(() => ({ net: zero, delivered: false }));
    const commission = await commissionBook.one(this.read, commissionId);
    const { work } = await agreedOf(this.read, studio, commission);
    return standings.map(({ id, standing }) => ({
      net: Money.sum(
        work.pieces.flatMap(({ garment, price }) => (garment === id ? [price] : [])),
        studio.identity.currency,
      ),
      delivered: standing === 'delivered' || standing === 'closed',
    }));
  }
}
