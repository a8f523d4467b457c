import { workOfExtra } from '../../../domain/commissions/agreed-plan.js';
import type { Extra } from '../../../domain/commissions/extra.js';
import {
  type CostColumn,
  columnsTogether,
  costToCome,
  type HourOn,
  noColumn,
} from '../../../domain/commissions/landing/columns.js';
import type { CostSheet } from '../../../domain/costing/cost-lines.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { Money } from '../../../domain/kernel/money.js';
import { quoteBook } from '../../../storage/books/papers/quote-book.js';
import type { Reading } from '../../../storage/session.js';
import { costsOf } from '../quotes/kept-prices.js';

type Text = string;
type KeptPool = { readonly name: string; readonly base: string; readonly amount: Text };
type KeptTime = {
  readonly labour: Text;
  readonly machine: Text;
  readonly overhead: Text;
  readonly pools: readonly KeptPool[];
};

/** What of a cost sheet a column needs; the amounts of a frozen one are text. */
type KeptSheet = {
  readonly minutes: { readonly priced: Text };
  readonly materials: Text;
  readonly labour: Text;
  readonly machine: Text;
  readonly overhead: Text;
  readonly expenses: Text;
  readonly cost: Text;
  readonly mending: KeptTime;
  readonly keptBack: KeptTime;
  readonly parts: { readonly pools: readonly KeptPool[] };
};

/** A cost sheet as one column: mending and what is kept back stand in their sections, at the priced minutes. */
const columnOf = (sheet: KeptSheet, currency: string): CostColumn => {
  const money = (text: Text): Money => Money.rounded(new Decimal(text), currency);
  const sum = (texts: readonly Text[]): Money => Money.sum(texts.map(money), currency);
  const more = [sheet.mending, sheet.keptBack];
  const pools = [...sheet.parts.pools, ...more.flatMap((time) => time.pools)];
  const byPool = new Map<string, Money>();
  for (const { name, amount } of pools)
    byPool.set(name, (byPool.get(name) ?? Money.zero(currency)).plus(money(amount)));
  return {
    ...noColumn(currency),
    minutes: new Decimal(sheet.minutes.priced),
    materials: money(sheet.materials),
    labour: sum([sheet.labour, ...more.map((time) => time.labour)]),
    machine: sum([sheet.machine, ...more.map((time) => time.machine)]),
    overhead: sum([sheet.overhead, ...more.map((time) => time.overhead)]),
    overheadByPool: byPool,
    overheadOfTime: sum(pools.filter(({ base }) => base !== 'material-cost').map(({ amount }) => amount)),
    expenses: money(sheet.expenses),
    cost: money(sheet.cost),
  };
};

/** What the accepted quote rested on; undefined where the quote kept nothing of this garment. */
export const quotedColumn = async (
  reading: Reading,
  quoteId: string,
  garmentId: string,
): Promise<CostColumn | undefined> => {
  const quote = await quoteBook.one(reading, quoteId);
  const kept = costsOf(quote).garments.find(({ ref }) => ref === garmentId);
  return kept?.answer && columnOf(kept.answer.costSheet as unknown as KeptSheet, quote.total.currency);
};

/** What would be quoted today; nothing where that cannot be worked out. */
export const askedColumn = (sheet: CostSheet | undefined, currency: string): CostColumn =>
  sheet ? columnOf(JSON.parse(JSON.stringify(sheet)) as KeptSheet, currency) : noColumn(currency);

/** What was quoted, and the planned cost of every extra since, at the rates of the day it was offered. */
export const withExtras = (quoted: CostColumn, extras: readonly Extra[], hourOn: HourOn): CostColumn =>
  extras.reduce((column, { work, offeredOn, price: { currency } }) => {
    const { operations = [], materials = [], expenses = [] } = workOfExtra(work);
    const sum = (amounts: readonly Money[]): Money => Money.sum(amounts, currency);
    const added = costToCome(
      operations.map(({ name, mode, minutes }) => ({ name, mode: mode ?? 'hand', minutes })),
      sum(materials.map(({ quantity, unitCost }) => Money.rounded(quantity.times(unitCost ?? 0), currency))),
      sum(expenses.map(({ amount }) => amount)),
      hourOn(offeredOn),
    );
    return { ...columnsTogether(column, added), operations: [] };
  }, quoted);
