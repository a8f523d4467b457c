import { type Finding, mustMend, wantsLook } from '../finding.js';
import type { Paper } from '../model/paper.js';
import { TAX_CATEGORIES, type TaxCategory } from '../tax/category.js';
import type { Placed } from './placed.js';

const blank = (text: string | undefined): boolean => text === undefined || text.trim() === '';
const RULE_BY_PLACE = { line: '02', allowance: '03', charge: '04' } as const;

/**
 * Is no tax charged anywhere on the paper? The standard asks for a number of the house all the same. Many a small house has
 * none to give, and where its law wants none on paper it must be able to ask for its money: what it lacks then wants a look and
 * a yes, and does not block. Ours.
 */
export const chargesNoTax = (paper: Paper): boolean =>
  paper['BG-25'].every((line) => line['BT-151'] === 'E' || line['BT-151'] === 'O');

/** What a house that charges no tax is told of a number it does not give. */
export const withoutNumber = (code: string, field: string): Finding =>
  wantsLook(
    code,
    field,
    'No tax, company or other number of the house stands on the paper. A house that charges no tax may need none; a program that reads its data may refuse it. Is that right?',
  );

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
    const numberMissing = blank(seller['BT-31']) && (onlyVat || blank(seller['BT-32']));
    if (numberMissing && chargesNoTax(paper))
      found.push(withoutNumber(`BR-${ruleset}-${RULE_BY_PLACE[where]}`, 'seller.taxNumber'));
    else if (numberMissing)
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
