/**
 * The tax categories a line may carry: UNTDID 5305 codes as EN 16931-1 uses them.
 *
 * `taxed` says whether the group's tax is base × rate; every other category states 0 tax whatever rate stands beside it.
 * `reason` says whether the paper must give a reason for charging none (BR-E-10, BR-AE-10, BR-G-10, BR-IC-10, BR-O-10).
 * `ruleset` is the part of the rule's name that stands for the category; K's rules are called IC.
 *
 * @see EN 16931-1, BT-118 and BT-151; CEN EN 16931 validation artefacts 1.3.16
 */
export const TAX_CATEGORIES = {
  S: { words: 'standard rate', taxed: true, reason: false, ruleset: 'S' },
  Z: { words: 'zero rate', taxed: false, reason: false, ruleset: 'Z' },
  E: { words: 'exempt from tax', taxed: false, reason: true, ruleset: 'E' },
  AE: { words: 'reverse charge', taxed: false, reason: true, ruleset: 'AE' },
  O: { words: 'not subject to tax', taxed: false, reason: true, ruleset: 'O' },
  G: { words: 'export outside the EU', taxed: false, reason: true, ruleset: 'G' },
  K: { words: 'supply within the Community', taxed: false, reason: true, ruleset: 'IC' },
  B: { words: 'split payment', taxed: true, reason: false, ruleset: 'B' },
} as const;

export type TaxCategory = keyof typeof TAX_CATEGORIES;
