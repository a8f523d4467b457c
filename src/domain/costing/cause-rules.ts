import { CAUSES, type Cause } from './causes.js';

/** May work of a cause be charged: yes, as an offer, by the terms only, or never? */
export type Charging = 'yes' | 'offered' | 'by-the-terms' | 'never';

/** What a cause does. */
export type CauseRule = {
  /** How a maker says it. */
  readonly words: string;
  readonly charging: Charging;
  /** Is it an extra of its own? What is not stays in the garment's own hours. */
  readonly mayBeExtra: boolean;
  /** What follows from it, in one sentence. */
  readonly follows: string;
};

const RULES: Readonly<Record<Cause, CauseRule>> = {
  'client asked': {
    words: 'The client asked for it',
    charging: 'yes',
    mayBeExtra: true,
    follows: 'It may be charged, and is agreed before the work is begun.',
  },
  'own choice': {
    words: 'I want it so, nobody asked',
    charging: 'offered',
    mayBeExtra: true,
    follows: 'Offer it at a price; if the client would rather not pay, it is left out or given.',
  },
  'own error': {
    words: 'I have to do it again',
    charging: 'never',
    mayBeExtra: false,
    follows: 'It is not charged and nobody need agree. Its minutes teach how much mending a garment takes.',
  },
  'forgotten in the plan': {
    words: 'It was left out of the plan',
    charging: 'never',
    mayBeExtra: false,
    follows: 'It is not charged: the price was named with it. Its minutes are there for the next plan.',
  },
  'cloth or old work demanded it': {
    words: 'The cloth or the old work demands it',
    charging: 'by-the-terms',
    mayBeExtra: true,
    follows: 'It may be charged where your terms say so, and is agreed before the work is begun.',
  },
  'body changed': {
    words: 'The body has changed',
    charging: 'by-the-terms',
    mayBeExtra: true,
    follows: 'It may be charged where your terms say so, and is agreed before the work is begun.',
  },
};

/**
 * What a cause does: whether work of it may be charged, and whether it is an extra.
 *
 * @see design 2-costing.md section 5; test/domain/commissions/extra.test.ts
 */
export const causeRule = (cause: Cause): CauseRule => RULES[cause];

/** Is this text one of the six causes? */
export const isCause = (text: string): text is Cause => (CAUSES as readonly string[]).includes(text);
