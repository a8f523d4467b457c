import type { CutQuestion } from '../../../domain/commissions/cutting.js';
import type { Garment } from '../../../domain/commissions/garment.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { Decimal } from '../../../domain/kernel/decimal.js';
import { Quantity } from '../../../domain/kernel/quantity.js';
import { lastSet, type MeasurementSet } from '../../../domain/measuring/measurement-set.js';
import { paidAhead } from '../../../domain/papers/settlement/deposits-held.js';
import { agreedPlanBook } from '../../../storage/books/bench/agreed-plan-book.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { entryBook } from '../../../storage/books/cloth-room/entry-book.js';
import { lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { estimateBook } from '../../../storage/books/estimate-book.js';
import { measurementBook } from '../../../storage/books/measuring/measurement-book.js';
import { clientAccountBook } from '../../../storage/books/papers/client-account-book.js';
import { quoteBook } from '../../../storage/books/papers/quote-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Reading } from '../../../storage/session.js';
import { quoteName, quoteStateInWords } from '../../../web/papers/quote-state-words.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import { quantityInWords } from '../../../web/words/cloth.js';
import { countInWords } from '../../../web/words/counts.js';
import { dateInWords } from '../../../web/words/dates.js';

/** What the program knows about one question, in words; where it knows the answer, that too. */
export type Known = { readonly words: string; readonly isSo: boolean | undefined };

export type BeforeCutting = {
  readonly set: MeasurementSet | undefined;
  readonly wearerName: string;
  readonly known: Readonly<Record<CutQuestion, Known>>;
};

/** What is known about measurements, cloth, deposit and quote on the day a garment is to be cut. */
export const beforeCutting = async (
  reading: Reading,
  garment: Garment,
  today: CalendarDate,
): Promise<BeforeCutting> => {
  const wearer = await clientBook.one(reading, garment.wearerId);
  const set = lastSet(await measurementBook.ofClient(reading, wearer.id), today);
  return {
    set,
    wearerName: wearer.name,
    known: {
      measurements: measurementsKnown(set, wearer.name),
      cloth: await clothKnown(reading, garment),
      deposit: await depositKnown(reading, garment),
      quote: await quoteKnown(reading, garment, today),
    },
  };
};

const measurementsKnown = (set: MeasurementSet | undefined, name: string): Known =>
  set
    ? {
        words: `${name} was last measured on ${dateInWords(set.takenOn)}${set.takenBy ? ` by ${set.takenBy}` : ''}, ${countInWords(set.values.length, 'measurement')}${set.over ? `, over ${set.over}` : ''}.`,
        isSo: undefined,
      }
    : { words: `No measurements of ${name} are kept.`, isSo: false };

const clothKnown = async (reading: Reading, garment: Garment): Promise<Known> => {
  const { locale } = (await studioBook.the(reading)).identity;
  const lines = await estimateBook.materialsOf(reading, garment.id);
  const entries = (await entryBook.ofCommission(reading, garment.commissionId)).filter(
    ({ garmentId, kind }) => garmentId === garment.id && kind === 'issue',
  );
  const materials = await materialBook.all(reading);
  const much = (amount: Decimal, unit: Quantity['unit']): string =>
    quantityInWords(new Quantity(amount, unit), locale);
  const planned = lines.slice(0, 6).map(({ name, quantity, unit }) => `${name} ${much(quantity, unit)}`);
  const issued = entries.slice(0, 6).flatMap(({ materialId, quantity }) => {
    const material = materials.get(materialId);
    return material ? [`${material.name} ${much(quantity.abs(), material.unit)}`] : [];
  });
  const lots = await lotBook.named(
    reading,
    entries.flatMap(({ parts }) => parts.map(({ lotId }) => lotId)),
  );
  const remarks = [...lots.values()].flatMap(({ code, flaws, shrinkTest }) => [
    ...(flaws ? [`${code}, flaws: ${flaws}.`] : []),
    ...(shrinkTest ? [`${code}, shrink test: ${shrinkTest}.`] : []),
  ]);
  return {
    words: [
      planned.length > 0 ? `Planned: ${planned.join(', ')}.` : 'No cloth is planned.',
      issued.length > 0
        ? `Taken from the cloth room: ${issued.join(', ')}.`
        : 'None was taken from the cloth room yet.',
      ...remarks,
    ].join(' '),
    isSo: undefined,
  };
};

const depositKnown = async (reading: Reading, garment: Garment): Promise<Known> => {
  const { identity } = await studioBook.the(reading);
  const { payerId } = await commissionBook.one(reading, garment.commissionId);
  const { account, kinds } = await clientAccountBook.of(reading, payerId);
  const deposits = account.papers.filter(
    ({ id, commissionId }) => commissionId === garment.commissionId && kinds.get(id) === 'deposit-invoice',
  );
  const ids = new Set(deposits.map(({ id }) => id));
  const paid = paidAhead(account, garment.commissionId, ids, identity.currency);
  const open = deposits.filter(({ open: still }) => still.minor > 0);
  const said = paid.isZero()
    ? 'Nothing was paid ahead'
    : `${moneyInWords(paid, identity.locale)} was paid ahead`;
  if (deposits.length === 0)
    return { words: `No deposit invoice went out. ${said}.`, isSo: paid.isZero() ? undefined : true };
  return open.length === 0
    ? { words: `${said}; nothing is open on the deposit.`, isSo: true }
    : {
        words: `${said}; open on the deposit: ${open.map(({ number, open: still }) => `${moneyInWords(still, identity.locale)} of ${number}`).join(', ')}.`,
        isSo: false,
      };
};

const quoteKnown = async (reading: Reading, garment: Garment, today: CalendarDate): Promise<Known> => {
  const { quote } = await agreedPlanBook.of(reading, garment.id);
  const quotes = await quoteBook.ofCommission(reading, garment.commissionId);
  const accepted = quote && quotes.find(({ id }) => id === quote.id);
  const newest = accepted ?? quotes[0];
  if (!newest) return { words: 'No quote went out.', isSo: false };
  return {
    words: `${quoteName(newest)} ${quoteStateInWords(newest, today)}.`,
    isSo: accepted !== undefined,
  };
};
