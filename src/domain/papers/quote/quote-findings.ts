import { daysBetween, isCalendarDate } from '../../kernel/calendar-date.js';
import { type Finding, mustMend, wantsLook } from '../finding.js';
import { sellerAddressLines } from '../model/party.js';
import { TAX_CATEGORIES } from '../tax/category.js';
import type { QuotePaper } from './quote-paper.js';

const blank = (text: string | undefined): boolean => text === undefined || text.trim() === '';

const partyFindings = ({ seller, client, registeredForTax }: QuotePaper): Finding[] => {
  const found: Finding[] = [];
  if (blank(seller['BT-27']))
    found.push(
      mustMend(
        'seller-name',
        'seller.name',
        'The paper does not say who makes the offer. Fill in the name of the house.',
      ),
    );
  if (sellerAddressLines(seller['BG-5']).length === 0)
    found.push(mustMend('seller-address', 'seller.address', 'The address of the house is missing.'));
  if (registeredForTax && blank(seller['BT-31']) && blank(seller['BT-32']))
    found.push(
      mustMend(
        'seller-tax-number',
        'seller.taxNumber',
        'The house is registered for tax, but its tax number is missing.',
      ),
    );
  if (!registeredForTax && blank(seller['BT-30']) && blank(seller['BT-29']) && blank(seller['BT-32']))
    found.push(
      wantsLook(
        'seller-registration',
        'seller.registration',
        'No registration or tax number is given. An invoice will need one; a quote can do without.',
      ),
    );
  if (blank(client['BT-44']))
    found.push(
      mustMend(
        'client-name',
        'client.name',
        'The paper does not say whom it is for. Fill in the client’s name.',
      ),
    );
  return found;
};

const dateFindings = (quote: QuotePaper): Finding[] => {
  const { issued, validUntil } = quote;
  const found: Finding[] = [];
  const exists = (date: string | undefined): date is string => date !== undefined && isCalendarDate(date);
  if (!exists(issued))
    found.push(
      mustMend(
        'issue-date',
        'issued',
        issued ? `${issued} is no date.` : 'The date of the quote is missing.',
      ),
    );
  if (!exists(validUntil))
    found.push(
      mustMend(
        'valid-until',
        'validUntil',
        validUntil ? `${validUntil} is no date.` : 'Say until when the quote is valid.',
      ),
    );
  if (exists(issued) && exists(validUntil) && daysBetween(issued, validUntil) <= 0)
    found.push(
      mustMend('valid-until', 'validUntil', 'The quote runs out before, or on, the day it is issued.'),
    );
  const given = [
    ...quote.garments.map(({ ready, name }, index) => ({
      on: ready,
      what: name,
      field: `garments.${index}.ready`,
    })),
    ...(quote.dates ?? []).map(({ on, what }, index) => ({ on, what, field: `dates.${index}.on` })),
  ];
  for (const { on, what, field } of given) {
    if (on === undefined) continue;
    if (!isCalendarDate(on)) found.push(mustMend('date', field, `${what}: ${on} is no date.`));
    else if (exists(issued) && daysBetween(issued, on) < 0)
      found.push(
        wantsLook(
          `date-past ${field}`,
          field,
          `${what} is promised for a day before the quote is issued. Is that right?`,
        ),
      );
  }
  return found;
};

const garmentFindings = (quote: QuotePaper): Finding[] => {
  const found: Finding[] = [];
  if (quote.garments.length === 0)
    found.push(mustMend('no-garment', 'garments', 'There is no garment in this quote. Add one.'));
  quote.garments.forEach((garment, index) => {
    const at = `garments.${index}`;
    const name = blank(garment.name) ? `Garment ${index + 1}` : garment.name;
    if (blank(garment.name)) found.push(mustMend('garment-name', `${at}.name`, `${name} has no name.`));
    if (garment.scope.every((line) => blank(line.text)))
      found.push(
        wantsLook(
          `garment-scope-${index + 1}`,
          `${at}.scope`,
          `${name}: only its name and make say what is included. Mark lines of its job sheet for the client to read, or let it stand.`,
        ),
      );
    if (garment.price.isNegative())
      found.push(mustMend('price-negative', `${at}.price`, `${name} has a price below nought.`));
    if (garment.price.isZero())
      found.push(
        wantsLook(
          `price-nought-${index + 1}`,
          `${at}.price`,
          `${name} is offered at ${garment.price}. Is that right?`,
        ),
      );
    if (garment.fittings === undefined)
      found.push(
        wantsLook(
          `fittings-${index + 1}`,
          `${at}.fittings`,
          `${name}: how many fittings are included is not said. Is that right?`,
        ),
      );
  });
  return found;
};

const taxFindings = ({ paper, registeredForTax }: QuotePaper): Finding[] => {
  const found: Finding[] = [];
  for (const group of paper['BG-23']) {
    const category = TAX_CATEGORIES[group['BT-118']];
    if (category.reason && blank(group['BT-120']))
      found.push(
        mustMend(
          `BR-${category.ruleset}-10`,
          'taxReasons',
          `No tax is charged (${category.words}), but the paper does not say why.`,
        ),
      );
    if (category.taxed && !registeredForTax)
      found.push(
        mustMend(
          'tax-unregistered',
          'garments.0.category',
          'The house is not registered for tax, but this quote charges it.',
        ),
      );
    if (category.taxed && group['BT-119']?.isZero())
      found.push(
        mustMend('BR-S-05', 'garments.0.rate', 'The standard rate cannot be 0. Choose zero rate or exempt.'),
      );
  }
  const codes = new Set(paper['BG-23'].map((group) => group['BT-118']));
  if (codes.has('O') && codes.size > 1)
    found.push(
      mustMend(
        'BR-O-11',
        'garments.0.category',
        'What is not subject to tax cannot stand beside what is. Make two quotes, or use exempt.',
      ),
    );
  return found;
};

const termFindings = (quote: QuotePaper): Finding[] => {
  const found: Finding[] = [];
  if (!quote.agreement)
    found.push(
      mustMend(
        'agreement',
        'agreement',
        'Say which it is: a fixed price, an estimate, or work charged by time.',
      ),
    );
  if (quote.agreement === 'time' && !quote.hourPrice)
    found.push(
      mustMend(
        'hour-price',
        'hourPrice',
        'The work is charged by time, but the price of an hour is missing.',
      ),
    );
  if (quote.discount && !quote.discount.amount.isZero() && blank(quote.discount.reason))
    found.push(mustMend('BR-33', 'discount.reason', 'Say what the discount is for.'));
  if ((quote.terms ?? []).every(blank))
    found.push(wantsLook('terms', 'terms', 'The quote carries no terms. Is that right?'));
  if (quote.depositRule.rule === 'materials-and-labour' && quote.deposit.total.isZero())
    found.push(
      wantsLook(
        'deposit-nought',
        'deposit',
        'The deposit from materials and labour comes to nothing. Is that right?',
      ),
    );
  quote.options.forEach((option, index) => {
    if (blank(option.text))
      found.push(mustMend('option-text', `options.${index}.text`, `Option ${index + 1} has no words.`));
  });
  return found;
};

/**
 * What is missing or odd on a quote before it is issued, in words.
 *
 * @returns what must be mended first (`blocks`) and what only wants a yes; empty when the quote may go out
 * @see VAT Directive 2006/112/EC art. 226 and UK SI 1995/2518 reg. 14 for who, whom, what and how much; the rest is
 * common practice, no source; test/domain/papers/quote-findings.test.ts
 */
export const quoteFindings = (quote: QuotePaper): Finding[] => [
  ...partyFindings(quote),
  ...dateFindings(quote),
  ...termFindings(quote),
  ...garmentFindings(quote),
  ...taxFindings(quote),
];
