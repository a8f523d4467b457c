import type { Money } from '../../kernel/money.js';
import { type Finding, mustMend, wantsLook } from '../finding.js';
import type { Paper } from '../model/paper.js';
import { isCreditorReference } from '../payment/creditor-reference.js';
import { isIban } from '../payment/iban.js';

const blank = (text: string | undefined): boolean => text === undefined || text.trim() === '';

/** How to pay: BR-49, BR-50, BR-61, and check digits, which the official rules do not test. */
export const paymentRules = (paper: Paper): Finding[] => {
  const payment = paper['BG-16'];
  if (!payment) return [];
  const found: Finding[] = [];
  const account = payment['BT-84'];
  if (blank(payment['BT-81'])) found.push(mustMend('BR-49', 'payment.how', 'Say how to pay.'));
  if (['30', '58'].includes(payment['BT-81'] ?? '') && blank(account))
    found.push(
      mustMend('BR-61', 'payment.account', 'To be paid by transfer, the paper needs an account number.'),
    );
  else if (blank(account) && (!blank(payment['BT-85']) || !blank(payment['BT-86'])))
    found.push(mustMend('BR-50', 'payment.account', 'A bank is named, but no account number.'));
  const looksLikeIban = /^[A-Za-z]{2}\d{2}/.test(account ?? '');
  if (account && (looksLikeIban || payment['BT-81'] === '58') && !isIban(account))
    found.push(
      mustMend('iban', 'payment.account', `The check digits or the length of ${account} do not hold.`),
    );
  const reference = payment['BT-83'];
  if (reference && /^RF\d{2}/i.test(reference.trim()) && !isCreditorReference(reference))
    found.push(
      mustMend('creditor-reference', 'payment.reference', `The check digits of ${reference} do not hold.`),
    );
  return found;
};

/**
 * Fields tax law asks for beside the standard's own.
 *
 * @see VAT Directive 2006/112/EC art. 226(7); UK SI 1995/2518 reg. 14(1)(b); local law decides
 */
export const lawRules = (paper: Paper): Finding[] => {
  const found: Finding[] = [];
  const supplied = [paper['BT-72'], paper['BT-73'], paper['BT-74'], paper['BT-7']].some(
    (date) => !blank(date),
  );
  if (!supplied && paper.kind !== 'credit-note')
    found.push(
      wantsLook(
        'supply-date',
        'supplied',
        'No day of delivery, or of payment on account, is given. That is right only if it is the day of the paper.',
      ),
    );
  if (paper.kind === 'credit-note' && blank(paper['BT-22']))
    found.push(wantsLook('credit-reason', 'note', 'The credit note does not say why. Is that right?'));
  return found;
};

/** What stands beside a paper that is one of several for the same work. */
export type Stages = {
  /** Tax on the whole, worked out at once. */
  readonly wholeTax: Money;
  /** Σ tax of the earlier invoices. */
  readonly earlierTax: Money;
  /** How many earlier invoices are cited. */
  readonly cited: number;
  /** In how many groups of category and rate tax was rounded; 1 when left out. */
  readonly groups?: number;
};

/**
 * The last of several papers: tax on the whole against the sum of taxes; one minor unit is allowed per earlier invoice, in
 * each group of category and rate, since each group is rounded on its own.
 *
 * @param paper deducts the earlier invoices, so that its own tax is what is left
 */
export const stageRules = (paper: Paper, stages: Stages): Finding[] => {
  const all = stages.earlierTax.plus(paper['BG-22']['BT-110']);
  const drift = all.minus(stages.wholeTax);
  if (drift.isZero()) return [];
  const words = `The taxes of all papers come to ${all}, tax on the whole to ${stages.wholeTax}`;
  return Math.abs(drift.minor) <= stages.cited * (stages.groups ?? 1)
    ? [
        wantsLook(
          'tax-by-stages',
          'totals',
          `${words}: rounded once per paper, ${drift} went another way. The paper says so.`,
        ),
      ]
    : [mustMend('tax-by-stages', 'totals', `${words}. That is more than rounding explains.`)];
};
