import { exponentOf, isCurrency } from '../../kernel/currency.js';
import { Money } from '../../kernel/money.js';
import { type Finding, mustMend, wantsLook } from '../finding.js';
import type { Paper } from '../model/paper.js';
import { groupTax } from '../tax/tax-groups.js';

/** BR-CO-10 to BR-CO-18: sums and tax, exact in minor units (the official rules let tax be wrong by less than 1.00). */
export const totalRules = (paper: Paper): Finding[] => {
  const t = paper['BG-22'];
  const currency = paper['BT-5'];
  const sum = (all: readonly Money[]): Money => Money.sum(all, currency);
  const found: Finding[] = [];
  const mustBe = (code: string, stated: Money, expected: Money, what: string): void => {
    if (!stated.equals(expected))
      found.push(mustMend(code, 'totals', `${what} is ${expected}, but ${stated} is stated.`));
  };
  mustBe('BR-CO-10', t['BT-106'], sum(paper['BG-25'].map((line) => line['BT-131'])), 'The sum of the lines');
  mustBe('BR-CO-11', t['BT-107'], sum(paper['BG-20'].map((each) => each['BT-92'])), 'The sum of allowances');
  mustBe('BR-CO-12', t['BT-108'], sum(paper['BG-21'].map((each) => each['BT-99'])), 'The sum of charges');
  mustBe('BR-CO-13', t['BT-109'], t['BT-106'].minus(t['BT-107']).plus(t['BT-108']), 'The total before tax');
  mustBe('BR-CO-14', t['BT-110'], sum(paper['BG-23'].map((group) => group['BT-117'])), 'The total of tax');
  mustBe('BR-CO-15', t['BT-112'], t['BT-109'].plus(t['BT-110']), 'The total with tax');
  mustBe('BR-CO-16', t['BT-115'], t['BT-112'].minus(t['BT-113']).plus(t['BT-114']), 'The amount due');
  for (const group of paper['BG-23']) {
    const rated = { category: group['BT-118'], rate: group['BT-119'] };
    if (group['BT-119'] === undefined && group['BT-118'] !== 'O') {
      found.push(mustMend('BR-48', 'totals', `The tax group ${group['BT-118']} has no rate.`));
      continue;
    }
    const words = `Tax of ${group['BT-116']} at ${group['BT-119']?.toFixed() ?? '0'} %`;
    mustBe('BR-CO-17', group['BT-117'], groupTax(group['BT-116'], rated), words);
  }
  if (paper['BG-23'].length === 0)
    found.push(mustMend('BR-CO-18', 'totals', 'The paper has no tax group. Even without tax it needs one.'));
  if (t['BT-115'].isNegative()) {
    const asked = t['BT-112'].plus(t['BT-114']);
    found.push(
      mustMend(
        'amount-due-negative',
        'totals',
        t['BT-113'].minor > 0 && !asked.isNegative()
          ? `Paid before, ${t['BT-113']}, is more than the paper comes to. Take off at most ${asked}; what is over stays with the client.`
          : `The amount due is ${t['BT-115']}. Pay it back with a credit note instead.`,
      ),
    );
  }
  return found;
};

const TOTALS_DECIMALS = [
  ['BR-DEC-09', 'BT-106'],
  ['BR-DEC-10', 'BT-107'],
  ['BR-DEC-11', 'BT-108'],
  ['BR-DEC-12', 'BT-109'],
  ['BR-DEC-13', 'BT-110'],
  ['BR-DEC-14', 'BT-112'],
  ['BR-DEC-16', 'BT-113'],
  ['BR-DEC-17', 'BT-114'],
  ['BR-DEC-18', 'BT-115'],
] as const;

/**
 * BR-DEC-*: at most two decimals. Money never has more than its currency, so only a currency with three or four can
 * offend; the paper may be issued, but not exported as the standard has it.
 */
export const decimalRules = (paper: Paper): Finding[] => {
  if (!isCurrency(paper['BT-5']) || exponentOf(paper['BT-5']) <= 2) return [];
  const amounts: (readonly [string, Money])[] = [
    ...TOTALS_DECIMALS.map(([code, term]) => [code, paper['BG-22'][term]] as const),
    ...paper['BG-20'].map((each) => ['BR-DEC-01', each['BT-92']] as const),
    ...paper['BG-21'].map((each) => ['BR-DEC-05', each['BT-99']] as const),
    ...paper['BG-23'].flatMap(
      (group) =>
        [
          ['BR-DEC-19', group['BT-116']],
          ['BR-DEC-20', group['BT-117']],
        ] as const,
    ),
    ...paper['BG-25'].flatMap((line) => [
      ['BR-DEC-23', line['BT-131']] as const,
      ...line['BG-27'].map((each) => ['BR-DEC-24', each['BT-136']] as const),
      ...line['BG-28'].map((each) => ['BR-DEC-27', each['BT-141']] as const),
    ]),
  ];
  const codes = new Set(
    amounts.filter(([, amount]) => amount.toDecimal().decimalPlaces() > 2).map(([code]) => code),
  );
  return [...codes].map((code) =>
    wantsLook(
      code,
      'currency',
      `An amount in ${paper['BT-5']} has more than two decimals. The paper can be issued, but EN 16931 allows two.`,
    ),
  );
};
