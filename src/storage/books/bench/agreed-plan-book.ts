import { agreedPlan, type PlannedWork, quotedFromRows } from '../../../domain/commissions/agreed-plan.js';
import type { Extra } from '../../../domain/commissions/extra.js';
import type { ExpenseLine, MaterialLine, PlannedGarment } from '../../../domain/commissions/garment.js';
import { Money } from '../../../domain/kernel/money.js';
import type { Operation } from '../../../domain/making/operation.js';
import { standingAnswer } from '../../../domain/papers/quote/quote-answer.js';
import type { Reading } from '../../session.js';
import { garmentBook } from '../garment-book.js';
import { quoteBook } from '../papers/quote-book.js';
import type { Kept } from '../papers/quote-text.js';
import { extraBook } from './extra-book.js';
import { expenseOf, materialOf, operationOf } from './work-text.js';

/** What was quoted for a garment, and what was agreed about it since. */
export type AgreedGarment = {
  /** The accepted version it rests on; none where nothing was accepted, and the plan as it stands is taken. */
  readonly quote: { readonly id: string; readonly number: string; readonly edition: number } | undefined;
  /** The price before tax the quote rests on; none without a quote. */
  readonly quotedNet: Money | undefined;
  readonly quoted: PlannedWork;
  readonly agreed: PlannedWork;
  /** Every extra of the garment, in every state. */
  readonly extras: readonly Extra[];
};

type KeptGarment = {
  readonly ref: string;
  readonly parts?: { readonly net: string };
  readonly plan?: Kept<Operation>[];
  readonly materials?: Kept<MaterialLine>[];
  readonly expenses?: Kept<ExpenseLine>[];
};

/** What was agreed for garments: the accepted quote's plan and the extras. */
export const agreedPlanBook = {
  /** The agreed plan of a garment. @throws NotFound */
  async of(reading: Reading, garmentId: string): Promise<AgreedGarment> {
    const { garment, ...rows } = await garmentBook.planned(reading, garmentId);
    const extras = await extraBook.ofGarment(reading, garmentId);
    const accepted = await acceptedQuote(reading, garment.commissionId, garmentId);
    const quoted = accepted?.work ?? quotedFromRows(rows, extras);
    return {
      quote: accepted && { id: accepted.id, number: accepted.number, edition: accepted.edition },
      quotedNet: accepted?.net,
      quoted,
      agreed: agreedPlan(quoted, extras),
      extras,
    };
  },
};

/**
 * A garment as a quote prices it: the plan as it stands without the extras that were agreed, which have prices of their own.
 *
 * @throws NotFound
 */
export const quotableGarment = async (reading: Reading, garmentId: string): Promise<PlannedGarment> =>
  quotedFromRows(
    await garmentBook.planned(reading, garmentId),
    await extraBook.ofGarment(reading, garmentId),
  );

/** The newest accepted version that holds the garment, with the plan it rests on. */
const acceptedQuote = async (reading: Reading, commissionId: string, garmentId: string) => {
  for (const quote of await quoteBook.ofCommission(reading, commissionId)) {
    const answer = standingAnswer(quote.answers);
    if (answer?.answer !== 'accepted' || (answer.taken && !answer.taken.includes(garmentId))) continue;
    const { costs } = await quoteBook.one(reading, quote.id);
    const { garments } = JSON.parse(costs) as { garments: KeptGarment[] };
    const kept = garments.find(({ ref }) => ref === garmentId);
    if (!kept) continue;
    const { currency } = quote.total;
    return {
      id: quote.id,
      number: quote.number,
      edition: quote.edition,
      net: kept.parts && Money.parse(kept.parts.net, currency),
      work: {
        plan: (kept.plan ?? []).map(operationOf),
        materials: (kept.materials ?? []).map(materialOf),
        expenses: (kept.expenses ?? []).map((line) => expenseOf(line, currency)),
      },
    };
  }
  return undefined;
};
