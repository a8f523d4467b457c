import type { CurrencyCode } from '../kernel/currency.js';
import { Decimal } from '../kernel/decimal.js';
import { Invalid } from '../kernel/errors.js';
import { Money } from '../kernel/money.js';
import { type IssueCost, type Movement, mustBeMovements, type StockMethod, shortfall } from './movements.js';
import { putBack, quantityOf, type StockLot, type Taken, takeFrom } from './stock-lot.js';

export type StockAnswer = {
  readonly issued: readonly IssueCost[];
  /** Σ issues and waste − Σ returns. */
  readonly issuedCost: Money;
  readonly onHand: Decimal;
  readonly value: Money;
  /** value / on hand, never rounded; null when nothing is there. */
  readonly averageUnitCost: Decimal | null;
  /** What is left, lot by lot; one pooled lot under weighted average. */
  readonly lots: readonly StockLot[];
};

type Out = Extract<Movement, { kind: 'issue' | 'waste' }>;

/** Under weighted average all deliveries flow into one. */
const POOL = '';

class Shelf {
  private lots: StockLot[] = [];
  private readonly out = new Map<number, Taken[]>();

  constructor(
    private readonly currency: CurrencyCode,
    private readonly method: StockMethod,
  ) {}

  buy(movement: Extract<Movement, { kind: 'buy' }>, index: number): void {
    const pooled = this.method === 'weighted-average';
    const lot = pooled ? POOL : this.nameFor(movement.lot, index);
    const value = Money.rounded(movement.quantity.times(movement.unitCost), this.currency);
    const bought = { lot, quantity: movement.quantity, value };
    const there = this.lots.find((each) => each.lot === lot);
    if (!there) this.lots.push(bought);
    else if (pooled) this.replace(putBack(there, { ...bought, cost: value }));
    else {
      throw Invalid.field(
        `movements.${index}.lot`,
        `Lot “${lot.slice(0, 40)}” is there already: name another.`,
      );
    }
  }

  issue(movement: Out, index: number): Money {
    const from = this.method === 'lot' ? [this.lotOf(movement, index)] : this.lots;
    const there = quantityOf(from);
    if (there.lt(movement.quantity)) throw shortfall(index, movement.quantity, there);
    let wanted = movement.quantity;
    const takings: Taken[] = [];
    for (const lot of from.filter((each) => each.quantity.gt(0))) {
      if (wanted.isZero()) break;
      const { taken, left } = takeFrom(lot, Decimal.min(wanted, lot.quantity));
      wanted = wanted.minus(taken.quantity);
      takings.push(taken);
      this.replace(left);
    }
    this.out.set(index, takings);
    return costOf(takings, this.currency);
  }

  /** Undoes the last taken first, each at the cost it left with. */
  giveBack(movement: Extract<Movement, { kind: 'return' }>, index: number): Money {
    const issue = this.issueUndone(movement.of, index);
    const takings = [...(this.out.get(issue) ?? [])];
    const stillOut = quantityOf(takings);
    if (stillOut.lt(movement.quantity)) throw shortfall(index, movement.quantity, stillOut);
    let wanted = movement.quantity;
    const returned: Taken[] = [];
    while (wanted.gt(0)) {
      const last = takings.pop();
      if (!last) break;
      const { taken, left } = takeFrom({ ...last, value: last.cost }, Decimal.min(wanted, last.quantity));
      if (left.quantity.gt(0)) takings.push({ lot: last.lot, quantity: left.quantity, cost: left.value });
      wanted = wanted.minus(taken.quantity);
      returned.push(taken);
      for (const lot of this.lots.filter((each) => each.lot === taken.lot)) this.replace(putBack(lot, taken));
    }
    this.out.set(issue, takings);
    return costOf(returned, this.currency).negated();
  }

  left(): readonly StockLot[] {
    return this.lots;
  }

  /** In first in, first out a lot's name is only a label and may come twice; by lot it is what an issue asks for. */
  private nameFor(lot: string | undefined, index: number): string {
    if (lot === undefined) return `movement ${index}`;
    const taken = this.method === 'first-in-first-out' && this.lots.some((each) => each.lot === lot);
    return taken ? `${lot} (movement ${index})` : lot;
  }

  private lotOf(movement: Out, index: number): StockLot {
    const found = this.lots.find((each) => each.lot === movement.lot);
    if (found) return found;
    const text =
      movement.lot === undefined
        ? 'Say which lot the piece was cut from.'
        : `There is no lot “${movement.lot.slice(0, 40)}”.`;
    throw Invalid.field(`movements.${index}.lot`, text);
  }

  private issueUndone(of: number | undefined, index: number): number {
    const issues = [...this.out.keys()];
    const [only] = issues;
    if (of === undefined && issues.length === 1 && only !== undefined) return only;
    if (of !== undefined && this.out.has(of)) return of;
    throw Invalid.field(
      `movements.${index}.of`,
      'Say which issue came back, by its place among the movements.',
    );
  }

  private replace(lot: StockLot): void {
    this.lots = this.lots.map((each) => (each.lot === lot.lot ? lot : each));
  }
}

const costOf = (takings: readonly Taken[], currency: CurrencyCode): Money =>
  Money.sum(
    takings.map((taken) => taken.cost),
    currency,
  );

/**
 * What issues cost and what is left of one material, by lot, first in first out, or moving weighted average.
 *
 * A purchase is valued once, quantity × unit cost; from then on the value is carried, each issue takes its part of it
 * (value × taken / left) and the last takes the remainder, so that bought = issued + left always. A return goes back at
 * the cost it left with. The average is never rounded before use.
 *
 * @param method how an issue is costed; by lot, each issue names its lot
 * @param movements in the order they happened, quantities above 0, unit costs not negative
 * @returns cost of each issue, rounded half away from zero, and what is left
 * @throws Invalid with code `shortfall` and the quantity that is there when more is asked for; Invalid for a lot or an
 *   issue that does not exist
 * @see Principles of Accounting, Vol. 1 (OpenStax, 2019), sections 10.1 to 10.3; IAS 2, paragraphs 23 to 25;
 *   test/reference/stock/stock-methods.test.ts
 */
export const workOutStock = (
  currency: CurrencyCode,
  method: StockMethod,
  movements: readonly Movement[],
): StockAnswer => {
  mustBeMovements(movements);
  const shelf = new Shelf(currency, method);
  const issued: IssueCost[] = [];
  for (const [index, movement] of movements.entries()) {
    if (movement.kind === 'buy') {
      shelf.buy(movement, index);
      continue;
    }
    const cost = movement.kind === 'return' ? shelf.giveBack(movement, index) : shelf.issue(movement, index);
    issued.push({ movement: index, kind: movement.kind, quantity: movement.quantity, cost });
  }
  const lots = shelf.left();
  const onHand = quantityOf(lots);
  const value = Money.sum(
    lots.map((lot) => lot.value),
    currency,
  );
  return {
    issued,
    issuedCost: Money.sum(
      issued.map((each) => each.cost),
      currency,
    ),
    onHand,
    value,
    averageUnitCost: onHand.isZero() ? null : value.toDecimal().div(onHand),
    lots,
  };
};
