import { Trouble } from '../../../domain/kernel/errors.js';
import { type Finding, mustMend } from '../../../domain/papers/finding.js';
import { makeQuote } from '../../../domain/papers/quote/make-quote.js';
import type { QuoteDraft, QuotePaper } from '../../../domain/papers/quote/quote-paper.js';

/** A draft with its paper, and what had to be left out of it. */
export type PaperOfDraft = {
  readonly draft: QuoteDraft;
  readonly paper: QuotePaper;
  readonly findings: readonly Finding[];
};

/**
 * The paper of a draft, also when its deposit or discount cannot stand: prices move after a draft was kept, and its page
 * must still open so that it can be mended. What cannot stand is left out and blocks the issue.
 */
export const paperOfDraft = (draft: QuoteDraft): PaperOfDraft => {
  try {
    return { draft, paper: makeQuote(draft), findings: [] };
  } catch (error) {
    const without = error instanceof Trouble ? withoutCause(draft, error) : undefined;
    if (!without) throw error;
    const { findings, ...rest } = paperOfDraft(without.draft);
    return { ...rest, findings: [...findings, without.finding] };
  }
};

const withoutCause = (
  draft: QuoteDraft,
  { message, fields }: Trouble,
): { draft: QuoteDraft; finding: Finding } | undefined => {
  const [field = ''] = fields.map((one) => one.field);
  const isDeposit = field.startsWith('deposit');
  if (isDeposit && draft.deposit)
    return {
      draft: { ...draft, deposit: { rule: 'none' } },
      finding: mustMend('deposit-range', 'deposit', message),
    };
  if (!isDeposit && draft.discount) {
    const { discount: _, ...rest } = draft;
    return { draft: rest, finding: mustMend('discount-range', 'discount', message) };
  }
  return undefined;
};
