/** What a quote is: said on the paper, because much consumer law asks for it. */
export const AGREEMENTS = {
  'fixed-price': {
    words: 'Fixed price',
    sentence: 'This is a fixed price. It changes only by what we both agree in writing beforehand.',
  },
  estimate: {
    words: 'Estimate',
    sentence: 'This is an estimate. The final price may differ; we will tell you before it does.',
  },
  time: {
    words: 'By time',
    sentence: 'The work is charged by the time it takes, at the rate stated here.',
  },
} as const;

export type Agreement = keyof typeof AGREEMENTS;

/** How the price of cloth is meant, in words the studio may change. */
export const CLOTH_PRICES = {
  held: 'The price of the cloth is held until the date this quote is valid.',
  'of-the-day':
    'The cloth is charged at the price of the day it is ordered; we will tell you if it has changed.',
  own: 'You bring the cloth. We look after it, and answer for it only as far as the law where we work says.',
} as const;

/** Said on the check page of every paper. */
export const PAPER_CAUTION =
  'This adds up what you entered. Rules differ by country; check yours or ask a licensed adviser.';

/** The reason an unregistered studio gives for charging no tax, unless it has words of its own. */
export const NOT_REGISTERED = 'Not registered for tax; no tax is charged.';

/** Where the client writes: what stands beside each ruled line. */
export const ACCEPTANCE_LINES = ['Name', 'Date', 'Signature'] as const;
