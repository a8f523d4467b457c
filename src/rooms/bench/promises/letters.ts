import type { Client } from '../../../domain/clients/client.js';
import type { Commission } from '../../../domain/commissions/commission.js';
import type { Garment } from '../../../domain/commissions/garment.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { NotFound } from '../../../domain/kernel/errors.js';
import { type ClosedSpan, closedDayBook } from '../../../storage/books/bench/closed-day-book.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import type { Reading } from '../../../storage/session.js';
import { dateInWords } from '../../../web/words/dates.js';
import { spanInWords } from './close-days.js';

type Moved = {
  readonly garment: Garment;
  readonly commission: Commission;
  readonly was: CalendarDate;
  readonly now: CalendarDate;
};

/** A letter to one client about the promises that moved. */
export type Letter = { readonly client: Client; readonly numbers: readonly string[]; readonly text: string };

/**
 * A letter that says which day moved to which, and nothing of why the workroom is closed.
 *
 * @param span the days; none where they were closed before, or opened again
 * @param maker who signs
 */
export const letterOf = (
  client: Pick<Client, 'name'>,
  span: Pick<ClosedSpan, 'from' | 'to'> | undefined,
  moved: readonly Pick<Moved, 'was' | 'now' | 'garment' | 'commission'>[],
  maker: string,
): string => {
  const closed = !span
    ? ''
    : span.from === span.to
      ? `The workroom is closed on ${dateInWords(span.from)}. `
      : `The workroom is closed from ${spanInWords(span)}. `;
  const lines = moved.map(({ garment, commission, was, now }) => {
    const name = `${garment.name} (${commission.number}/${garment.place})`;
    return was === now
      ? `${name}: ${dateInWords(now)}`
      : `${name}: ${dateInWords(now)}, instead of ${dateInWords(was)}`;
  });
  return [
    `Dear ${client.name},`,
    '',
    `${closed}What we are making for you will be ready on another day than we had said:`,
    '',
    ...lines,
    '',
    'If that day does not suit you, write or call; we shall find a way.',
    '',
    'With kind regards,',
    maker,
  ].join('\n');
};

/** The letters of a span, client by client in the order of the promises. @throws NotFound */
export const lettersOf = async (
  reading: Reading,
  spanId: string,
  maker: string,
): Promise<{ readonly span: ClosedSpan | undefined; readonly letters: readonly Letter[] }> => {
  const moved = await closedDayBook.moved(reading, spanId);
  const span = await closedDayBook.span(reading, spanId).catch((error: unknown) => {
    if (error instanceof NotFound && moved.length > 0) return undefined;
    throw error;
  });
  const byClient = new Map<string, Moved[]>();
  for (const { garmentId, was, now } of moved) {
    const garment = await garmentBook.one(reading, garmentId).catch(() => undefined);
    if (!garment) continue;
    const commission = await commissionBook.one(reading, garment.commissionId);
    const own = byClient.get(commission.clientId) ?? [];
    byClient.set(commission.clientId, [...own, { garment, commission, was, now }]);
  }
  const letters: Letter[] = [];
  for (const [clientId, own] of byClient) {
    const client = await clientBook.one(reading, clientId);
    const numbers = [...new Set(own.map(({ commission }) => commission.number))];
    letters.push({ client, numbers, text: letterOf(client, span, own, maker) });
  }
  return { span, letters };
};
