import { extraName, netOfExtra, standingExtras } from '../../../domain/commissions/extra.js';
import { hourOnFrom } from '../../../domain/commissions/landing/columns.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Money } from '../../../domain/kernel/money.js';
import { MONEY_OUT_KINDS } from '../../../domain/money-out/money-out.js';
import {
  actualWork,
  type ExpensePaid,
  extraAtRates,
  type UsedMaterial,
} from '../../../domain/reckoning/actual-work.js';
import { type FrozenReckoning, freezeReckoning } from '../../../domain/reckoning/frozen-reckoning.js';
import { quotedWork } from '../../../domain/reckoning/quoted-work.js';
import { reckon } from '../../../domain/reckoning/reckon.js';
import { spendOf } from '../../../domain/stock/spend.js';
import { type SpendRow, spendRows } from '../../../domain/stock/spend-rows.js';
import { entryBook } from '../../../storage/books/cloth-room/entry-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { ratesBook } from '../../../storage/books/rates-book.js';
import type { Clock } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import { type LandingTold, landingTold } from '../landing/gather-landing.js';
import { pricingOf, sumOfPlanned } from '../sum/sum-of.js';
import { sheetOfQuote } from './quoted-sheet.js';

/** What is said at the closing; left out, the sensible thing is taken. */
export type ReckoningChoices = {
  /** What was asked in the end, before tax; the agreed price when left out. */
  readonly price?: Money | undefined;
  /** Planned materials of which nothing was issued, and planned expenses without a bill: as planned, or none. */
  readonly unwritten: 'as-planned' | 'none';
};

/** A reckoning as it would be frozen now, and what it was worked out from. */
export type ReckoningTold = { readonly told: LandingTold; readonly frozen: FrozenReckoning };

/** Works the reckoning of a garment out; undefined while the studio has no rates. @throws NotFound */
export const reckoningTold = async (
  reading: Reading,
  clock: Clock,
  garmentId: string,
  choices: ReckoningChoices,
  today: CalendarDate,
): Promise<ReckoningTold | undefined> => {
  const told = await landingTold(reading, clock, garmentId);
  const cards = await ratesBook.all(reading);
  if (!told || cards.length === 0) return undefined;
  const hourOn = hourOnFrom(cards);
  const { work, input, studio } = told;
  const { currency } = studio.identity;
  const extras = standingExtras(work.agreed.extras).map((extra) =>
    extraAtRates(
      { name: extraName(extra), kind: extra.kind, price: netOfExtra(extra), work: extra.work },
      hourOn(extra.offeredOn),
    ),
  );
  const charged = Money.sum(
    extras.map(({ price }) => price ?? Money.zero(currency)),
    currency,
  );
  const quoted = quotedWork(
    await sheetOf(reading, clock, told),
    work.agreed.quotedNet ?? input.price.minus(charged),
  );
  const materials = await materialsUsed(reading, told, choices, today);
  const expenses = expensesPaid(told, choices);
  const actual = actualWork(work.worked, materials.used, expenses.paid, hourOn, currency);
  const reckoning = reckon({
    quoted,
    actual,
    price: choices.price ?? input.price,
    extras,
    worked: work.worked,
  });
  const basting = new Set(work.plan.filter((one) => one.basting).map(({ id }) => id));
  const frozen = freezeReckoning(reckoning, {
    materialsAtReplacement: materials.atReplacement,
    bastingMinutes: work.worked.reduce(
      (sum, piece) => sum + (basting.has(piece.operationId ?? '') ? piece.minutes : 0),
      0,
    ),
    takenAsPlanned: [...materials.asPlanned, ...expenses.asPlanned],
  });
  return { told, frozen };
};

/** What the accepted quote rested on; without one, what would be asked today for the plan that stands in its place. */
const sheetOf = async (reading: Reading, clock: Clock, { work, commission }: LandingTold) => {
  const { garment } = work.planned;
  const kept = work.agreed.quote && (await sheetOfQuote(reading, work.agreed.quote.id, garment.id));
  if (kept) return kept;
  const pricing = await pricingOf(reading, clock, commission.id);
  const sum = await sumOfPlanned(pricing, { garment, ...work.agreed.quoted });
  if (!sum) throw new Error('A studio with rates has no sum.');
  return sum.answer.costSheet;
};

/** Each material as it was used; what was planned and never issued is taken as planned where that is chosen. */
const materialsUsed = async (
  reading: Reading,
  { work, studio, materials }: LandingTold,
  choices: ReckoningChoices,
  today: CalendarDate,
) => {
  const { garment, materials: lines } = work.planned;
  const { currency } = studio.identity;
  const known = await materialBook.all(reading);
  const entries = (await entryBook.ofCommission(reading, garment.commissionId)).filter(
    (entry) => entry.garmentId === garment.id,
  );
  const rows = spendRows({ garment, lines, entries, promises: [], bought: [] }, known, currency);
  const on = materials.at(-1)?.on ?? today;
  const asPlanned: string[] = [];
  const used = rows.flatMap((row): UsedMaterial[] => {
    const spend = spendOf(row, currency);
    if (wasMoved(row)) return [{ name: row.name, on, quantity: spend.used, cost: spend.usedCost }];
    if (choices.unwritten === 'none') return [];
    asPlanned.push(row.name);
    return [{ name: row.name, on, quantity: spend.planned, cost: spend.plannedCost }];
  });
  const replacement = lines.map((line) =>
    Money.rounded(line.quantity.times(line.replacementUnitCost ?? line.unitCost), currency),
  );
  return { used, asPlanned, atReplacement: Money.sum(replacement, currency) };
};

const wasMoved = ({ issued, wasted, returned }: SpendRow): boolean =>
  [issued, wasted, returned].some(({ quantity }) => !quantity.isZero());

/** Bills, and what is planned and has none. */
const expensesPaid = ({ bills, input }: LandingTold, choices: ReckoningChoices) => {
  const paid: ExpensePaid[] = bills.map(({ kind, what, amount }) => ({
    name: what || MONEY_OUT_KINDS[kind].words,
    amount,
  }));
  const open = input.expensesToCome;
  if (open.isZero() || choices.unwritten === 'none') return { paid, asPlanned: [] };
  return {
    paid: [...paid, { name: 'planned, no bill', amount: open }],
    asPlanned: ['expenses without a bill'],
  };
};
