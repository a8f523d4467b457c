import { Decimal } from '../../kernel/decimal.js';
import { Money } from '../../kernel/money.js';
import { type Finding, mustMend } from '../finding.js';
import type { Paper, PaperTaxGroup } from '../model/paper.js';
import { TAX_CATEGORIES, type TaxCategory } from '../tax/category.js';
import { type Placed, placedIn } from './placed.js';
import { registrationRules } from './registration-rules.js';

const rateRules = (category: TaxCategory, placed: readonly Placed[]): Finding[] => {
  const { ruleset, words } = TAX_CATEGORIES[category];
  const found: Finding[] = [];
  for (const each of placed) {
    const code = `BR-${ruleset}-${{ line: '05', allowance: '06', charge: '07' }[each.where]}`;
    if (category === 'O') {
      if (each.rate !== undefined)
        found.push(
          mustMend(
            code,
            `${each.field}.rate`,
            `${each.words} is not subject to tax, so it must not name a rate.`,
          ),
        );
    } else if (category === 'S') {
      if (each.rate === undefined || each.rate.lessThanOrEqualTo(0))
        found.push(
          mustMend(
            code,
            `${each.field}.rate`,
            `${each.words} is at the standard rate, so its rate must be above 0.`,
          ),
        );
    } else if (each.rate === undefined || !each.rate.isZero()) {
      found.push(mustMend(code, `${each.field}.rate`, `${each.words}: ${words} means a rate of 0.`));
    }
  }
  return found;
};

const breakdownRules = (
  category: TaxCategory,
  placed: readonly Placed[],
  groups: readonly PaperTaxGroup[],
  currency: string,
): Finding[] => {
  const { ruleset, words, taxed, reason } = TAX_CATEGORIES[category];
  const found: Finding[] = [];
  const rule = (number: string, text: string, field = 'totals'): void => {
    found.push(mustMend(`BR-${ruleset}-${number}`, field, text));
  };
  if (placed.length > 0 && (groups.length === 0 || (!taxed && groups.length > 1)))
    rule(
      '01',
      `There must be ${taxed ? 'a' : 'exactly one'} tax group for ${words}, but there are ${groups.length}.`,
    );
  for (const group of groups) {
    const mine = placed.filter(
      (each) => !taxed || (each.rate ?? new Decimal(0)).equals(group['BT-119'] ?? 0),
    );
    const expected = Money.sum(
      mine.map((each) => each.amount),
      currency,
    );
    if (!expected.equals(group['BT-116']))
      rule('08', `The base for ${words} is ${expected}, but ${group['BT-116']} is stated.`);
    if (!taxed && !group['BT-117'].isZero())
      rule('09', `No tax falls on ${words}, but ${group['BT-117']} is stated.`);
    const given = group['BT-120'] !== undefined && group['BT-120'].trim() !== '';
    if (reason && !given)
      rule('10', `No tax is charged (${words}), but the paper does not say why.`, 'taxReasons');
    if (!reason && given)
      rule('10', `A reason for charging no tax does not belong to ${words}.`, 'taxReasons');
  }
  return found;
};

const standsAlone = (paper: Paper): Finding[] => {
  const alone = paper['BG-23'].some((group) => group['BT-118'] === 'O');
  if (!alone) return [];
  const found: Finding[] = [];
  const other = (code: string, field: string, what: string): void => {
    found.push(mustMend(code, field, `${what} is subject to tax, and cannot stand beside what is not.`));
  };
  if (paper['BG-23'].some((group) => group['BT-118'] !== 'O')) other('BR-O-11', 'totals', 'A tax group');
  if (paper['BG-25'].some((line) => line['BT-151'] !== 'O')) other('BR-O-12', 'lines', 'A line');
  if (paper['BG-20'].some((each) => each['BT-95'] !== 'O')) other('BR-O-13', 'allowances', 'An allowance');
  if (paper['BG-21'].some((each) => each['BT-102'] !== 'O')) other('BR-O-14', 'charges', 'A charge');
  return found;
};

/** BR-S-*, BR-Z-*, BR-E-*, BR-AE-*, BR-G-*, BR-IC-* (category K) and BR-O-*: one pass per category on the paper. */
export const categoryRules = (paper: Paper): Finding[] => {
  const found: Finding[] = [];
  for (const category of Object.keys(TAX_CATEGORIES) as TaxCategory[]) {
    const placed = placedIn(paper, category);
    const groups = paper['BG-23'].filter((group) => group['BT-118'] === category);
    if (placed.length === 0 && groups.length === 0) continue;
    if (category === 'B') {
      found.push(
        mustMend(
          'category-b',
          'lines',
          'Split payment can be worked out here, but not issued. Choose another category.',
        ),
      );
      continue;
    }
    found.push(
      ...registrationRules(paper, category, placed),
      ...rateRules(category, placed),
      ...breakdownRules(category, placed, groups, paper['BT-5']),
    );
  }
  return [...found, ...standsAlone(paper)];
};
