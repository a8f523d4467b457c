import { Money } from '../../../domain/kernel/money.js';
import { InvoiceRow } from '../../rows/papers/invoice.row.js';
import { AllocationRow } from '../../rows/payments/allocation.row.js';
import { PaymentRow } from '../../rows/payments/payment.row.js';
import { keptIn, type Reading } from '../../session.js';
import { studioBook } from '../studio-book.js';
import { clientAccountBook } from './client-account-book.js';

/** What clients owe in all, and how many of them owe something. */
export type OwedTogether = { readonly owed: Money; readonly clients: number };

let known: { readonly restsOn: string; readonly together: OwedTogether } | undefined;

/**
 * What is owed by everybody. Papers, payments and their allocations are only ever added, so the answer stays in memory until the
 * newest of one of them is another: minutes written at the bench do not make it be worked out again.
 */
export const owedTogether = (reading: Reading): Promise<OwedTogether> =>
  keptIn(reading, 'owed by everybody', async () => {
    const newest = await Promise.all(
      [InvoiceRow, PaymentRow, AllocationRow].map((row) =>
        reading.manager
          .createQueryBuilder<{ id: string }>(row, 'one')
          .select('MAX(one.id)', 'last')
          .getRawOne<{ last: string | null }>(),
      ),
    );
    const { currency } = (await studioBook.the(reading)).identity;
    const restsOn = [currency, ...newest.map((row) => row?.last ?? '')].join(' ');
    if (known?.restsOn === restsOn) return known.together;
    const owing = (await clientAccountBook.all(reading)).filter(({ account }) => account.owed.minor > 0);
    const together = {
      owed: Money.sum(
        owing.map(({ account }) => account.owed),
        currency,
      ),
      clients: owing.length,
    };
    known = { restsOn, together };
    return together;
  });
