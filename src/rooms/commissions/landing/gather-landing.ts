import type { Commission } from '../../../domain/commissions/commission.js';
import { netOfExtra, standingExtras } from '../../../domain/commissions/extra.js';
import {
  type CostColumn,
  type HourOn,
  hourOnFrom,
  type MaterialUsed,
} from '../../../domain/commissions/landing/columns.js';
import {
  type GarmentLanding,
  type GarmentUnderWay,
  landingOf,
} from '../../../domain/commissions/landing/landing.js';
import type { Studio } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Money } from '../../../domain/kernel/money.js';
import { expensesToCome } from '../../../domain/money-out/expenses-to-come.js';
import type { MoneyOut } from '../../../domain/money-out/money-out.js';
import { type StockEntry } from '../../../domain/stock/entry.js';
import type { Material } from '../../../domain/stock/material.js';
import { spendOf } from '../../../domain/stock/spend.js';
import { spendRows } from '../../../domain/stock/spend-rows.js';
import { entryBook } from '../../../storage/books/cloth-room/entry-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { expensesPaidFor } from '../../../storage/books/money-out/money-out-book.js';
import { outworkBook } from '../../../storage/books/outwork/outwork-book.js';
import { ratesBook } from '../../../storage/books/rates-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import { type WorkOfGarment, workOfGarment } from '../../../storage/landing/garment-under-way.js';
import { lessonBook, wordOfLesson } from '../../../storage/lesson/lesson-book.js';
import { keptIn, type Reading } from '../../../storage/session.js';
import { pricingOf, sumOfPlanned } from '../sum/sum-of.js';
import { askedColumn, quotedColumn, withExtras } from './planned-column.js';

/** A movement of cloth or trimmings for a garment, with what it cost the garment. */
export type MaterialEntry = MaterialUsed & {
  readonly id: string;
  readonly materialId: string;
  readonly name: string;
  readonly kind: StockEntry['kind'];
};

/** Where a garment will land, with everything behind it. */
export type LandingTold = {
  readonly studio: Studio;
  readonly commission: Commission;
  readonly work: WorkOfGarment;
  readonly input: GarmentUnderWay;
  readonly landing: GarmentLanding;
  readonly planned: CostColumn;
  /** Was a price agreed, or is it what would be asked today? */
  readonly isAgreed: boolean;
  readonly materials: readonly MaterialEntry[];
  /** Direct expenses so far. */
  readonly bills: readonly MoneyOut[];
};

/** Gathers where a garment will land; undefined while the studio has no rates. @throws NotFound */
export const landingTold = async (
  reading: Reading,
  clock: Clock,
  garmentId: string,
): Promise<LandingTold | undefined> => {
  const today = todayIn(clock, (await studioBook.the(reading)).identity.zone);
  const lesson = wordOfLesson(await lessonBook.present(reading));
  return keptIn(reading, `landing of ${garmentId} on ${today} by ${lesson}`, () =>
    gathered(reading, clock, garmentId, today),
  );
};

const gathered = async (
  reading: Reading,
  clock: Clock,
  garmentId: string,
  today: CalendarDate,
): Promise<LandingTold | undefined> => {
  const hourOn = await hours(reading);
  if (!hourOn) return undefined;
  const work = nothingToCome(await workOfGarment(reading, garmentId));
  const { garment, materials: lines, expenses } = work.planned;
  const pricing = await pricingOf(reading, clock, garment.commissionId);
  const { identity } = pricing.studio;
  const known = await materialBook.all(reading);
  const entries = (await entryBook.ofCommission(reading, garment.commissionId)).filter(
    (entry) => entry.garmentId === garmentId,
  );
  const rows = spendRows({ garment, lines, entries, promises: [], bought: [] }, known, identity.currency);
  const materials = usedBy(entries, known);
  const asked = work.agreed.quotedNet ? undefined : await sumOfPlanned(pricing, work.planned);
  const sum = (amounts: readonly Money[]): Money => Money.sum(amounts, identity.currency);
  const zero = Money.zero(identity.currency);
  const paid = await expensesPaidFor(reading, garmentId);
  const ordered = await outworkBook.toCome(reading, garmentId, identity.currency);
  const extras = standingExtras(work.agreed.extras);
  const input: GarmentUnderWay = {
    ...work,
    used: materials,
    materialsToCome: hasLeft(work)
      ? zero
      : sum(
          rows.map((row) =>
            Money.rounded(
              spendOf(row, identity.currency).toIssue.times(row.plannedUnitCost),
              identity.currency,
            ),
          ),
        ),
    expensesSoFar: paid.total,
    expensesToCome: expensesToCome(sum(expenses.map(({ amount }) => amount)), paid.total, ordered),
    price: work.agreed.quotedNet
      ? sum([work.agreed.quotedNet, ...extras.map(netOfExtra)])
      : (asked?.net ?? zero),
  };
  const quoted = work.agreed.quote && (await quotedColumn(reading, work.agreed.quote.id, garmentId));
  return {
    studio: pricing.studio,
    commission: pricing.commission,
    work,
    input,
    landing: landingOf(input, work.lesson, hourOn, today),
    planned: quoted
      ? withExtras(quoted, extras, hourOn)
      : askedColumn(asked?.answer.costSheet, identity.currency),
    isAgreed: work.agreed.quotedNet !== undefined,
    materials,
    bills: paid.bills,
  };
};

const hasLeft = ({ standing }: WorkOfGarment): boolean => standing === 'delivered' || standing === 'closed';

/** A garment that has left has no work to come, though nobody pressed that its operations are finished. */
const nothingToCome = (work: WorkOfGarment): WorkOfGarment =>
  hasLeft(work) ? { ...work, finished: new Set(work.plan.map(({ id }) => id)) } : work;

const hours = (reading: Reading): Promise<HourOn | undefined> =>
  keptIn(reading, 'hours by day and person', async () => {
    const cards = await ratesBook.all(reading);
    return cards.length > 0 ? hourOnFrom(cards) : undefined;
  });

/** Movements that cost a garment something or gave it back, oldest first; a reversal of one of them undoes it. */
const usedBy = (entries: readonly StockEntry[], known: ReadonlyMap<string, Material>): MaterialEntry[] => {
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  const counts = ({ kind, of }: StockEntry): boolean => {
    if (kind !== 'reversal') return OF_A_GARMENT.includes(kind);
    const reversed = byId.get(of ?? '');
    return reversed !== undefined && counts(reversed);
  };
  return entries
    .filter(counts)
    .reverse()
    .map(({ id, on, kind, cost, materialId }) => ({
      id,
      on,
      kind,
      materialId,
      name: known.get(materialId)?.name ?? '',
      cost: cost.negated(),
    }));
};

const OF_A_GARMENT: readonly StockEntry['kind'][] = ['issue', 'waste', 'return', 'offcut'];
