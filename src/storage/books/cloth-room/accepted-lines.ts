import { In } from 'typeorm';
import { quantityWithWaste } from '../../../domain/costing/material-cost.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import type { QuantityUnit } from '../../../domain/kernel/quantity.js';
import { standingAnswer } from '../../../domain/papers/quote/quote-answer.js';
import { grouped } from '../../../domain/stock/grouped.js';
import { CommissionRow } from '../../rows/commissions/commission.row.js';
import { GarmentRow } from '../../rows/commissions/garment.row.js';
import { MaterialLineRow } from '../../rows/commissions/material-line.row.js';
import { IssuedQuoteRow } from '../../rows/papers/issued-quote.row.js';
import { QuoteAnswerRow } from '../../rows/papers/quote-answer.row.js';
import type { Reading } from '../../session.js';
import { quoteAnswerBook } from '../papers/quote-answer-book.js';

/** A planned material of a garment whose commission has an accepted quote. */
export type AcceptedLine = {
  readonly id: string;
  readonly commissionId: string;
  readonly commissionNumber: string;
  readonly garmentId: string;
  readonly garmentName: string;
  readonly place: number;
  readonly dueOn: CalendarDate | undefined;
  readonly name: string;
  /** With its waste. */
  readonly quantity: Decimal;
  readonly unit: QuantityUnit;
  /** As it is planned now. */
  readonly unitCost: Decimal;
  /** The quote that was accepted. */
  readonly quoteId: string;
};

type Accepted = {
  readonly quoteId: string;
  readonly commissionId: string;
  readonly taken?: readonly string[];
};

/** Quotes that stand accepted, the newest first. */
const acceptedQuotes = async (reading: Reading): Promise<Accepted[]> => {
  const answered = await reading.manager
    .createQueryBuilder(QuoteAnswerRow, 'answer')
    .select('answer.quote_id', 'id')
    .distinct(true)
    .where("answer.answer = 'accepted'")
    .getRawMany<{ id: string }>();
  if (answered.length === 0) return [];
  const ids = answered.map(({ id }) => id);
  const answers = await quoteAnswerBook.to(reading, ids);
  const quotes = await reading.manager.find(IssuedQuoteRow, {
    select: { id: true, commission_id: true },
    where: { id: In(ids) },
    order: { id: 'DESC' },
  });
  return quotes.flatMap(({ id, commission_id }) => {
    const answer = standingAnswer(answers.get(id) ?? []);
    if (answer?.answer !== 'accepted') return [];
    const { taken } = answer;
    return [{ quoteId: id, commissionId: commission_id, ...(taken ? { taken } : {}) }];
  });
};

/** The materials planned for accepted garments, by commission and garment. */
export const acceptedLines = async (reading: Reading): Promise<AcceptedLine[]> => {
  const quotes = await acceptedQuotes(reading);
  if (quotes.length === 0) return [];
  const commissionIds = [...new Set(quotes.map(({ commissionId }) => commissionId))];
  const commissions = await reading.manager.findBy(CommissionRow, { id: In(commissionIds) });
  const garments = await reading.manager.find(GarmentRow, {
    where: { commission_id: In(commissionIds) },
    order: { commission_id: 'ASC', place: 'ASC' },
  });
  const numbers = new Map(commissions.map(({ id, number }) => [id, number]));
  const quotesOf = grouped(quotes, ({ commissionId }) => commissionId);
  const lines = await reading.manager.find(MaterialLineRow, {
    where: { garment_id: In(garments.map(({ id }) => id)) },
    order: { garment_id: 'ASC', place: 'ASC', id: 'ASC' },
  });
  const linesOf = grouped(lines, ({ garment_id }) => garment_id);
  return garments.flatMap((garment) => {
    const quote = quotesOf
      .get(garment.commission_id)
      ?.find(({ taken }) => taken === undefined || taken.includes(garment.id));
    if (!quote) return [];
    return (linesOf.get(garment.id) ?? []).map((line) => ({
      id: line.id,
      commissionId: garment.commission_id,
      commissionNumber: numbers.get(garment.commission_id) ?? '',
      garmentId: garment.id,
      garmentName: garment.name,
      place: garment.place,
      dueOn: garment.due_on ?? undefined,
      name: line.name,
      quantity: quantityWithWaste(
        new Decimal(line.quantity),
        new Decimal(line.waste_share),
        line.waste_of as 'net' | 'gross',
      ),
      unit: line.unit as QuantityUnit,
      unitCost: new Decimal(line.unit_cost),
      quoteId: quote.quoteId,
    }));
  });
};

type FrozenLine = { readonly id: string; readonly unitCost: string };
type Frozen = { readonly garments: readonly { readonly materials: readonly FrozenLine[] }[] };

/** The unit costs that quotes were worked out with, by planned line. */
export const quotedUnitCosts = async (
  reading: Reading,
  quoteIds: readonly string[],
): Promise<Map<string, Decimal>> => {
  if (quoteIds.length === 0) return new Map();
  const quotes = await reading.manager.find(IssuedQuoteRow, {
    select: { id: true, costs: true },
    where: { id: In([...new Set(quoteIds)]) },
    order: { id: 'ASC' },
  });
  return new Map(
    quotes
      .flatMap(({ costs }) => (JSON.parse(costs) as Frozen).garments)
      .flatMap(({ materials }) => materials)
      .map(({ id, unitCost }) => [id, new Decimal(unitCost)]),
  );
};
