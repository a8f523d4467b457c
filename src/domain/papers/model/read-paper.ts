import type { CalendarDate } from '../../kernel/calendar-date.js';
import type { Money } from '../../kernel/money.js';
import { QUANTITY_UNITS } from '../../kernel/quantity.js';
import { PAPER_KINDS, type Paper } from './paper.js';
import { buyerAddressLines, sellerAddressLines } from './party.js';

/** A paper by plain names, for pages and templates; amounts stay values, wording stays the page's. */
export const readPaper = (paper: Paper) => ({
  kind: paper.kind,
  title: PAPER_KINDS[paper.kind].words,
  number: paper['BT-1'],
  issued: paper['BT-2'],
  due: paper['BT-9'],
  currency: paper['BT-5'],
  orderNumber: paper['BT-13'],
  terms: paper['BT-20'],
  note: paper['BT-22'],
  supplied: paper['BT-72'],
  earlier: (paper['BG-3'] ?? []).map((each) => ({ number: each['BT-25'], issued: each['BT-26'] })),
  seller: {
    name: paper['BG-4']['BT-27'],
    tradingName: paper['BG-4']['BT-28'],
    registration: paper['BG-4']['BT-30'],
    taxNumber: paper['BG-4']['BT-31'] ?? paper['BG-4']['BT-32'],
    address: sellerAddressLines(paper['BG-4']['BG-5']),
    telephone: paper['BG-4']['BT-42'],
    mail: paper['BG-4']['BT-43'],
  },
  buyer: {
    name: paper['BG-7']['BT-44'],
    taxNumber: paper['BG-7']['BT-48'],
    address: buyerAddressLines(paper['BG-7']['BG-8']),
    mail: paper['BG-7']['BT-58'],
  },
  lines: paper['BG-25'].map((line) => ({
    number: line['BT-126'],
    name: line['BT-153'],
    description: line['BT-154'],
    quantity: line['BT-129'],
    unit: QUANTITY_UNITS[line['BT-130']].words,
    price: line['BT-146'],
    net: line['BT-131'],
    category: line['BT-151'],
    rate: line['BT-152'],
    allowances: line['BG-27'].map((each) => ({ amount: each['BT-136'], reason: each['BT-139'] })),
    charges: line['BG-28'].map((each) => ({ amount: each['BT-141'], reason: each['BT-144'] })),
  })),
  allowances: paper['BG-20'].map((each) => ({
    amount: each['BT-92'],
    reason: each['BT-97'],
    category: each['BT-95'],
    rate: each['BT-96'],
  })),
  charges: paper['BG-21'].map((each) => ({
    amount: each['BT-99'],
    reason: each['BT-104'],
    category: each['BT-102'],
    rate: each['BT-103'],
  })),
  groups: paper['BG-23'].map((group) => ({
    base: group['BT-116'],
    tax: group['BT-117'],
    category: group['BT-118'],
    rate: group['BT-119'],
    reason: group['BT-120'],
  })),
  totals: {
    lines: paper['BG-22']['BT-106'],
    allowances: paper['BG-22']['BT-107'],
    charges: paper['BG-22']['BT-108'],
    net: paper['BG-22']['BT-109'],
    tax: paper['BG-22']['BT-110'],
    gross: paper['BG-22']['BT-112'],
    prepaid: paper['BG-22']['BT-113'],
    rounding: paper['BG-22']['BT-114'],
    due: paper['BG-22']['BT-115'],
  },
  payment: paper['BG-16'] && {
    how: paper['BG-16']['BT-82'],
    reference: paper['BG-16']['BT-83'],
    account: paper['BG-16']['BT-84'],
    accountName: paper['BG-16']['BT-85'],
    bank: paper['BG-16']['BT-86'],
  },
  unreached: paper.unreached,
});

export type ReadablePaper = ReturnType<typeof readPaper>;

/**
 * One sentence about a unit a whole net could not reach, or nothing when all was reached.
 *
 * @param paper its prices kept with tax
 */
export const unreachedInWords = (paper: Paper): string | undefined => {
  const missing = paper.unreached;
  if (!missing) return undefined;
  const promised = paper['BG-22']['BT-112'].plus(missing);
  const currency = paper['BT-5'];
  return paper['BG-22']['BT-114'].isZero()
    ? `${currency} ${promised} with tax cannot be reached from a whole net amount; the nearest total not above it is stated.`
    : `${currency} ${promised} with tax cannot be reached from a whole net amount; a rounding amount of ${paper['BG-22']['BT-114']} brings the amount due there.`;
};

/** A receipt for money received: no tax is stated, it only says what came, when and how. */
export type Receipt = {
  readonly kind: 'receipt';
  readonly number?: string;
  readonly issued: CalendarDate;
  readonly received: CalendarDate;
  readonly amount: Money;
  readonly how: string;
  readonly from: string;
  /** What it is for: paper numbers, or words such as a deposit on a commission. */
  readonly towards: readonly string[];
};
