import { Invalid } from '../../../../domain/kernel/errors.js';
import { type Finding, mayIssue } from '../../../../domain/papers/finding.js';
import type { KeptInvoiceDraft } from '../../../../storage/books/papers/invoice-draft-book.js';

/** A draft as it was looked at. */
export type LookedAt = {
  readonly id: string;
  readonly version: number;
  readonly kind: KeptInvoiceDraft['choices']['kind'];
};

/** A batch that is overtaken so often gives up. */
export const MOST_TRIES = 12;
export const BUSY = 'Others are issuing papers at this moment. Try again.';

/** Invoices and credit notes are counted apart. */
export const seriesOf = (kind: KeptInvoiceDraft['choices']['kind']): 'invoice' | 'credit-note' =>
  kind === 'credit-note' ? 'credit-note' : 'invoice';

/** @throws Invalid naming each finding that blocks, or that nobody has looked at yet */
export const mustBeReady = (findings: readonly Finding[], confirmed: readonly string[]): void => {
  if (mayIssue(findings, confirmed)) return;
  const open = findings.filter(({ blocks, code }) => blocks || !confirmed.includes(code));
  throw new Invalid(
    'The invoice was not issued: something is missing or wants a look.',
    open.map(({ code, text }) => ({ field: `confirm.${code}`, text })),
    'not-ready',
  );
};
