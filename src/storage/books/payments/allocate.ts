import type { Allocated } from '../../../domain/papers/settlement/account.js';
import { AllocationRow } from '../../rows/payments/allocation.row.js';
import type { Writing } from '../../session.js';

/** Puts down what money went to. @param refunds keys of the refunds among what it went to; the rest are papers */
export const allocate = async (
  writing: Writing,
  clientId: string,
  entries: readonly Allocated[],
  refunds: ReadonlySet<string> = new Set(),
): Promise<void> => {
  for (const { from, to, amount } of entries)
    await writing.insertForGood(AllocationRow, {
      id: writing.newId(),
      client_id: clientId,
      payment_id: from,
      invoice_id: refunds.has(to) ? null : to,
      refund_id: refunds.has(to) ? to : null,
      amount: amount.minor,
      written_at: writing.at,
    });
};
