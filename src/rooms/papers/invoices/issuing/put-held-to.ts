import { heldEntries } from '../../../../domain/papers/settlement/allocating.js';
import { clientAccountBook } from '../../../../storage/books/papers/client-account-book.js';
import { allocate } from '../../../../storage/books/payments/allocate.js';
import { Overtaken } from '../../../../storage/issuing/print-then-keep.js';
import type { Writing } from '../../../../storage/session.js';
import type { InvoiceOfDraft } from '../invoice-of-draft.js';

/**
 * What the paper says was paid before goes to it in the act that issues it: the account and the paper never disagree.
 *
 * @throws Overtaken when the money went elsewhere while it was printed
 */
export const putHeldTo = async (
  writing: Writing,
  paperId: string,
  { kept, hand }: InvoiceOfDraft,
): Promise<void> => {
  const prepaid = hand.paper['BG-22']['BT-113'];
  if (prepaid.minor <= 0 || kept.choices.kind === 'credit-note') return;
  const { account } = await clientAccountBook.of(writing, kept.clientId);
  const entries = heldEntries(account, paperId, kept.commissionId, prepaid);
  if (!entries) throw new Overtaken();
  await allocate(writing, kept.clientId, entries);
};
