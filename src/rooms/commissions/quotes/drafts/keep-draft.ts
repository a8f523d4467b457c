import type { Commission } from '../../../../domain/commissions/commission.js';
import { garmentStanding, isOpen } from '../../../../domain/commissions/garment-mark.js';
import { addDays } from '../../../../domain/kernel/calendar-date.js';
import { Conflict, Invalid } from '../../../../domain/kernel/errors.js';
import type { DraftChoices } from '../../../../domain/papers/quote/draft-choices.js';
import { garmentMarkBook } from '../../../../storage/books/bench/garment-mark-book.js';
import { commissionBook } from '../../../../storage/books/commission-book.js';
import { garmentBook } from '../../../../storage/books/garment-book.js';
import { quoteBook } from '../../../../storage/books/papers/quote-book.js';
import { type KeptDraft, quoteDraftBook } from '../../../../storage/books/papers/quote-draft-book.js';
import { choicesOf } from '../../../../storage/books/papers/quote-text.js';
import { studioBook } from '../../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../../storage/clock.js';
import type { Reading, Visit } from '../../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../../storage/unit-of-work.js';
import { documentOf } from '../kept-prices.js';

export const quoteSubject = (commissionId: string, id: string): string =>
  `commission/${commissionId}/quote/${id}`;

/** What a quote of a commission begins with: every garment that is not closed or cancelled, and the house's and the commission's choices. */
export const firstChoices = async (
  reading: Reading,
  clock: Clock,
  commission: Commission,
): Promise<DraftChoices> => {
  const { identity, quotes } = await studioBook.the(reading);
  const garments = await garmentBook.ofCommission(reading, commission.id);
  const marks = await garmentMarkBook.ofGarments(
    reading,
    garments.map(({ id }) => id),
  );
  const { pricing } = commission;
  return {
    garments: garments.map(({ id }) => ({
      garmentId: id,
      included: isOpen(garmentStanding(marks.get(id) ?? [])),
      fittings: quotes.fittingsIncluded,
    })),
    options: [],
    kind: quotes.kind,
    hourPrice: undefined,
    validUntil: addDays(todayIn(clock, identity.zone), quotes.days),
    opening: '',
    exclusions: quotes.exclusions,
    clothWording: quotes.clothWording,
    terms: quotes.terms,
    depositRule: pricing.depositRule,
    depositShare: pricing.depositShare,
    depositAmount: undefined,
    discountReason: 'Courtesy',
    showHours: false,
  };
};

/** Begins a quote of a commission. @throws Conflict when it has no garment yet */
export const beginQuote = (
  unit: UnitOfWork,
  clock: Clock,
  visit: Visit,
  commissionId: string,
  said?: DraftChoices,
): Promise<Done<KeptDraft>> =>
  unit.write(visit, async (writing) => {
    const commission = await commissionBook.one(writing, commissionId);
    const begun = await firstChoices(writing, clock, commission);
    if (begun.garments.length === 0)
      throw new Conflict('There is no garment to quote yet. Add one to the commission first.', 'no-garment');
    const choices = said ?? begun;
    mustBeOfCommission(choices, begun);
    const draft = await quoteDraftBook.begin(writing, {
      commissionId,
      number: undefined,
      pricesOf: undefined,
      choices,
    });
    writing.says(`Began a quote for ${commission.number}`, quoteSubject(commissionId, draft.id));
    return draft;
  });

/** Begins the next version of an issued quote, at today's prices, with what was chosen then. */
export const beginNextVersion = (
  unit: UnitOfWork,
  clock: Clock,
  visit: Visit,
  commissionId: string,
  quoteId: string,
): Promise<Done<KeptDraft>> =>
  unit.write(visit, async (writing) => {
    const commission = await commissionBook.one(writing, commissionId);
    const quote = await quoteBook.one(writing, quoteId);
    const { identity, quotes } = await studioBook.the(writing);
    const then = choicesOf(JSON.stringify(documentOf(quote).choices), identity.currency);
    const present = await garmentBook.ofCommission(writing, commissionId);
    const thenOf = new Map(then.garments.map((garment) => [garment.garmentId, garment]));
    const draft = await quoteDraftBook.begin(writing, {
      commissionId,
      number: quote.number,
      pricesOf: undefined,
      choices: {
        ...then,
        garments: present.map(
          ({ id }) => thenOf.get(id) ?? { garmentId: id, included: false, fittings: quotes.fittingsIncluded },
        ),
        options: then.options.filter(
          ({ garmentId }) => !garmentId || present.some(({ id }) => id === garmentId),
        ),
        validUntil: addDays(todayIn(clock, identity.zone), quotes.days),
      },
    });
    writing.says(
      `Began version ${(await quoteBook.lastEdition(writing, quote.number)) + 1} of ${quote.number} for ${commission.number}`,
      quoteSubject(commissionId, draft.id),
    );
    return draft;
  });

/** @throws Stale when somebody changed it meanwhile; NotFound once it was issued */
export const keepDraft = (
  unit: UnitOfWork,
  visit: Visit,
  commissionId: string,
  id: string,
  choices: DraftChoices,
  seen?: number,
): Promise<Done<KeptDraft>> =>
  unit.write(visit, async (writing) => {
    const { number } = await commissionBook.one(writing, commissionId);
    const present = await quoteDraftBook.one(writing, commissionId, id);
    mustBeOfCommission(choices, present.choices, await garmentBook.ofCommission(writing, commissionId));
    const draft = await quoteDraftBook.choose(writing, id, choices, seen);
    writing.says(`Changed the draft of a quote for ${number}`, quoteSubject(commissionId, id));
    return draft;
  });

/** Puts a draft away; it can be undone, since nothing was issued. @throws Stale when it has changed since `seen` */
export const removeDraft = (
  unit: UnitOfWork,
  visit: Visit,
  commissionId: string,
  id: string,
  seen?: number,
): Promise<Done<void>> =>
  unit.write(visit, async (writing) => {
    const { number } = await commissionBook.one(writing, commissionId);
    await quoteDraftBook.one(writing, commissionId, id);
    await quoteDraftBook.remove(writing, id, seen);
    writing.says(`Put away the draft of a quote for ${number}`, quoteSubject(commissionId, id));
  });

const mustBeOfCommission = (
  choices: DraftChoices,
  known: DraftChoices,
  garments: readonly { readonly id: string }[] = [],
): void => {
  const ids = new Set([...known.garments.map(({ garmentId }) => garmentId), ...garments.map(({ id }) => id)]);
  choices.garments.forEach(({ garmentId }, place) => {
    if (!ids.has(garmentId))
      throw Invalid.field(`garments.${place}.garmentId`, 'This garment is not of this commission.');
  });
  choices.options.forEach(({ garmentId }, place) => {
    if (garmentId !== undefined && !ids.has(garmentId))
      throw Invalid.field(`options.${place}.garmentId`, 'This garment is not of this commission.');
  });
};
