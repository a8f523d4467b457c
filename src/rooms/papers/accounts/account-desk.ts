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
import { markBook, type StudioMark } from '../../../storage/books/house/mark-book.js';
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

  /** The picture on the letterhead. */
  mark(): Promise<StudioMark | undefined> {
    return markBook.maybe(this.read);
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
      const accounts = await clientAccountBook.all(this.read);
      const deposits = await this.depositsOf(accounts);
      return {
        deposits: deposits.all,
        // A payment on account of a commission is a deposit as long as the garment is here: it counts once.
        credit: accounts
          .reduce((sum, { account }) => sum.plus(account.credit), zero)
          .minus(deposits.onAccount),
        owed: accounts.reduce((sum, { account }) => sum.plus(account.owed), zero),
      };
    });
  }

  /** The deposits held for some clients, and how much of them went to no invoice yet. */
  async depositsOf(accounts: readonly ClientAccount[]): Promise<{ all: Money; onAccount: Money }> {
    const { studio, identity } = await this.house();
    const ahead = accounts.flatMap((of) => aheadOf(of, identity.currency));
    const garments = await this.garmentsOf(
      ahead.map(({ commissionId }) => commissionId),
      studio,
    );
    let all = Money.zero(identity.currency);
    let onAccount = all;
    for (const { commissionId, paid, loose } of ahead) {
      const held = depositHeld(paid, garments.get(commissionId) ?? [], studio.papers.taking);
      all = all.plus(held);
      onAccount = onAccount.plus(loose.compare(held) < 0 ? loose : held);
    }
    return { all, onAccount };
  }

  /** Which garments of some commissions were handed over. Cancelled ones keep no deposit. */
  private async garmentsOf(
    commissionIds: readonly string[],
    studio: Studio,
  ): Promise<Map<string, DepositGarment[]>> {
    const garments = await clientAccountBook.garmentsOf(this.read, commissionIds);
    const marks = await garmentMarkBook.ofGarments(this.read, [...garments.values()].flat());
    const found = new Map<string, DepositGarment[]>();
    for (const [commissionId, ids] of garments) {
      const standings = ids
        .map((id) => ({ id, standing: garmentStanding(marks.get(id) ?? []) }))
        .filter(({ standing }) => standing !== 'cancelled')
        .map(({ id, standing }) => ({ id, delivered: standing === 'delivered' || standing === 'closed' }));
      const zero = Money.zero(studio.identity.currency);
      // Where all of it was cancelled nothing is left to be handed over: what was paid is other money of the client.
      if (ids.length > 0 && standings.length === 0) {
        found.set(commissionId, [{ net: zero, delivered: true }]);
        continue;
      }
      const gone = standings.filter(({ delivered }) => delivered).length;
      // Prices are needed only where some are here and some are not.
      const prices =
        gone > 0 && gone < standings.length ? await this.pricesOf(commissionId, studio) : undefined;
      found.set(
        commissionId,
        standings.map(({ id, delivered }) => ({ net: prices?.get(id) ?? zero, delivered })),
      );
    }
    return found;
  }

  /** What was agreed for each garment. */
  private async pricesOf(commissionId: string, studio: Studio): Promise<Map<string, Money>> {
    const commission = await commissionBook.one(this.read, commissionId);
    const { work } = await agreedOf(this.read, studio, commission);
    const prices = new Map<string, Money>();
    for (const { garment, price } of work.pieces)
      if (garment !== undefined)
        prices.set(garment, (prices.get(garment) ?? Money.zero(price.currency)).plus(price));
    return prices;
  }
}

/** What a client has paid ahead, by commission; `loose` went to no invoice yet. */
const aheadOf = (
  { account, kinds }: ClientAccount,
  currency: string,
): { commissionId: string; paid: Money; loose: Money }[] => {
  const deposits = new Set([...kinds].flatMap(([id, kind]) => (kind === 'deposit-invoice' ? [id] : [])));
  const commissions = new Set([
    ...account.papers.flatMap(({ id, commissionId }) =>
      deposits.has(id) && commissionId ? [commissionId] : [],
    ),
    ...account.payments.flatMap(({ left, kind, commissionId }) =>
      kind === 'payment' && left.minor > 0 && commissionId ? [commissionId] : [],
    ),
  ]);
  return [...commissions].flatMap((commissionId) => {
    const paid = paidAhead(account, commissionId, deposits, currency);
    const loose = paidAhead(account, commissionId, new Set(), currency);
    return paid.isZero() ? [] : [{ commissionId, paid, loose }];
  });
};
