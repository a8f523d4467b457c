import type { Finding } from '../finding.js';
import type { Paper } from '../model/paper.js';
import { categoryRules } from './category-rules.js';
import { dateRules, headRules, partyRules } from './head-rules.js';
import { lineRules } from './line-rules.js';
import { lawRules, paymentRules, type Stages, stageRules } from './own-rules.js';
import { decimalRules, totalRules } from './total-rules.js';

export type GateQuestion = {
  /** The number is given at issue, inside the transaction: a draft is not blamed for lacking one. */
  readonly numberComes?: boolean;
  readonly stages?: Stages;
};

/**
 * The gate before an invoice is issued: every rule of EN 16931 that applies to a workroom's paper, exact in minor units,
 * and what the official rules do not catch (quantity × price, tax to the cent, check digits, days on no calendar, a
 * negative amount due).
 *
 * Rules about things the model does not hold (payee, tax representative, attachments, item attributes, cards, line periods,
 * other currencies of tax), and about figures
 * the model always holds, cannot be broken and are not asked.
 *
 * @returns findings in the order of the page; empty when the paper may be issued
 * @see EN 16931-1 and CEN EN 16931 validation artefacts 1.3.16; test/reference/papers/gate-vectors.test.ts
 */
export const checkPaper = (paper: Paper, question: GateQuestion = {}): Finding[] => [
  ...headRules(paper, question.numberComes ?? false),
  ...dateRules(paper),
  ...partyRules(paper),
  ...lineRules(paper),
  ...categoryRules(paper),
  ...totalRules(paper),
  ...decimalRules(paper),
  ...paymentRules(paper),
  ...lawRules(paper),
  ...(question.stages ? stageRules(paper, question.stages) : []),
];
