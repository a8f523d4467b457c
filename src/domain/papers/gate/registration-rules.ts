import { type Finding, mustMend } from '../finding.js';
import type { Paper } from '../model/paper.js';
import { TAX_CATEGORIES, type TaxCategory } from '../tax/category.js';
import type { Placed } from './placed.js';

const blank = (text: string | undefined): boolean => text === undefined || text.trim() === '';
const RULE_BY_PLACE = { line: '02', allowance: '03', charge: '04' } as const;

/** Whose tax numbers a category asks for, or forbids: rules 02 to 04 of each category, and BR-IC-11, BR-IC-12. */
export const registrationRules = (
  paper: Paper,
  category: TaxCategory,
  placed: readonly Placed[],
): Finding[] => {
  const { ruleset, words } = TAX_CATEGORIES[category];
  const seller = paper['BG-4'];
  const buyer = paper['BG-7'];
  const found: Finding[] = [];
  for (const where of ['line', 'allowance', 'charge'] as const) {
    if (!placed.some((each) => each.where === where)) continue;
    const rule = (field: string, text: string): void => {
      found.push(mustMend(`BR-${ruleset}-${RULE_BY_PLACE[where]}`, field, text));
    };
    if (category === 'O') {
      if (!blank(seller['BT-31']))
        rule('seller.taxNumber', 'What is not subject to tax must not name the house’s VAT number.');
      if (!blank(buyer['BT-48']))
        rule('client.taxNumber', 'What is not subject to tax must not name the client’s VAT number.');
      continue;
    }
    const onlyVat = category === 'G' || category === 'K';
    if (blank(seller['BT-31']) && (onlyVat || blank(seller['BT-32'])))
      rule(
        'seller.taxNumber',
        `For ${words} the paper must carry the ${onlyVat ? 'VAT' : 'VAT or tax registration'} number of the house.`,
      );
    const buyerMissing =
      (category === 'AE' && blank(buyer['BT-48']) && blank(buyer['BT-47'])) ||
      (category === 'K' && blank(buyer['BT-48']));
    if (buyerMissing) rule('client.taxNumber', `For ${words} the paper must carry the client’s tax number.`);
  }
  if (category === 'K') {
    if (blank(paper['BT-72']) && blank(paper['BT-73']) && blank(paper['BT-74']))
      found.push(
        mustMend('BR-IC-11', 'supplied', `For ${words} the day of delivery, or its period, must be given.`),
      );
    if (blank(paper['BT-80']))
      found.push(
        mustMend('BR-IC-12', 'deliverToCountry', `For ${words} the country of delivery must be given.`),
      );
  }
  return found;
};
