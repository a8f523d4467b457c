import { daysBetween, isCalendarDate } from '../../kernel/calendar-date.js';
import { isCurrency } from '../../kernel/currency.js';
import { type Finding, mustMend } from '../finding.js';
import type { Paper } from '../model/paper.js';
import { buyerAddressLines, sellerAddressLines } from '../model/party.js';
import { chargesNoTax, withoutNumber } from './registration-rules.js';

const blank = (text: string | undefined): boolean => text === undefined || text.trim() === '';

/** The house and the client: BR-06 to BR-11, BR-CO-09, BR-CO-26. */
export const partyRules = (paper: Paper): Finding[] => {
  const seller = paper['BG-4'];
  const buyer = paper['BG-7'];
  const found: Finding[] = [];
  const need = (missing: boolean, code: string, field: string, text: string): void => {
    if (missing) found.push(mustMend(code, field, text));
  };
  need(blank(seller['BT-27']), 'BR-06', 'seller.name', 'The name of the house is missing.');
  need(
    sellerAddressLines({ ...seller['BG-5'], 'BT-40': undefined }).length === 0,
    'BR-08',
    'seller.address',
    'The address of the house is missing.',
  );
  need(blank(seller['BG-5']?.['BT-40']), 'BR-09', 'seller.country', 'The country of the house is missing.');
  need(blank(buyer['BT-44']), 'BR-07', 'client.name', 'The client’s name is missing.');
  need(
    buyerAddressLines({ ...buyer['BG-8'], 'BT-55': undefined }).length === 0,
    'BR-10',
    'client.address',
    'The client’s address is missing.',
  );
  need(blank(buyer['BG-8']?.['BT-55']), 'BR-11', 'client.country', 'The client’s country is missing.');
  const isTold = ![seller['BT-29'], seller['BT-30'], seller['BT-31']].every(blank);
  if (!isTold && chargesNoTax(paper)) found.push(withoutNumber('BR-CO-26', 'seller.registration'));
  else
    need(
      !isTold,
      'BR-CO-26',
      'seller.registration',
      'The house needs a number it can be told by: an identifier, a registration number or a VAT number.',
    );
  const numbers = [
    [seller['BT-31'], 'seller.taxNumber', 'The VAT number of the house'],
    [buyer['BT-48'], 'client.taxNumber', 'The client’s VAT number'],
  ] as const;
  for (const [number, field, whose] of numbers) {
    need(
      !blank(number) && !/^[A-Z]{2}[A-Za-z0-9+*.]{2,}$/.test(number?.replace(/\s/g, '') ?? ''),
      'BR-CO-09',
      field,
      `${whose} must begin with the two letters of its country (Greece may use EL).`,
    );
  }
  return found;
};

/** Number, kind, currency, earlier invoices: BR-02, BR-04, BR-05, BR-55. */
export const headRules = (paper: Paper, numberComes: boolean): Finding[] => {
  const found: Finding[] = [];
  if (!numberComes && blank(paper['BT-1']))
    found.push(mustMend('BR-02', 'number', 'The paper has no number.'));
  if (blank(paper['BT-3'])) found.push(mustMend('BR-04', 'kind', 'This kind of paper is no invoice.'));
  if (!isCurrency(paper['BT-5']))
    found.push(mustMend('BR-05', 'currency', `“${paper['BT-5']}” is not a currency code.`));
  (paper['BG-3'] ?? []).forEach((earlier, index) => {
    if (blank(earlier['BT-25']))
      found.push(
        mustMend('BR-55', `earlier.${index}.number`, 'An earlier invoice is cited without its number.'),
      );
  });
  if (paper.kind === 'credit-note' && (paper['BG-3'] ?? []).length === 0)
    found.push(
      mustMend(
        'credit-cites',
        'earlier',
        'A credit note must say which invoice it mends (VAT Directive art. 219).',
      ),
    );
  return found;
};

/** Dates that exist and stand in order: BR-03, BR-29, BR-CO-25, and days that are on no calendar. */
export const dateRules = (paper: Paper): Finding[] => {
  const found: Finding[] = [];
  const dates = [
    ['BT-2', 'issued', 'The date of the paper'],
    ['BT-7', 'taxPoint', 'The date tax falls due'],
    ['BT-9', 'due', 'The date payment is due'],
    ['BT-72', 'supplied', 'The date of supply'],
    ['BT-73', 'periodFrom', 'The first day of the period'],
    ['BT-74', 'periodTo', 'The last day of the period'],
  ] as const;
  for (const [term, field, what] of dates) {
    const date = paper[term];
    if (date !== undefined && !isCalendarDate(date))
      found.push(mustMend('date', field, `${what}, ${date.slice(0, 20)}, is on no calendar.`));
  }
  if (blank(paper['BT-2'])) found.push(mustMend('BR-03', 'issued', 'The date of the paper is missing.'));
  const inOrder = (from: string | undefined, to: string | undefined): boolean =>
    !from || !to || !isCalendarDate(from) || !isCalendarDate(to) || daysBetween(from, to) >= 0;
  if (!inOrder(paper['BT-73'], paper['BT-74']))
    found.push(mustMend('BR-29', 'periodTo', 'The period ends before it begins.'));
  if (!inOrder(paper['BT-2'], paper['BT-9']))
    found.push(mustMend('due-before-issue', 'due', 'Payment is due before the paper is issued.'));
  const due = paper['BG-22']['BT-115'];
  const asksMoney = paper.kind !== 'credit-note' && due.minor > 0;
  if (asksMoney && blank(paper['BT-9']) && blank(paper['BT-20']))
    found.push(
      mustMend('BR-CO-25', 'due', `${due} is due, but neither a date nor terms of payment are given.`),
    );
  return found;
};
