import type { EntityTarget, ObjectLiteral } from 'typeorm';
import { foldForSearch } from '../../domain/clients/client.js';
import { NotFound } from '../../domain/kernel/errors.js';
import { ChangeRow } from '../history/change.row.js';
import { CounterTicketRow } from '../rows/beside/counter-ticket.row.js';
import { EnquiryRow } from '../rows/beside/enquiry.row.js';
import { ClientRow } from '../rows/clients/client.row.js';
import { MeasurementSetRow } from '../rows/clients/measurement-set.row.js';
import { CommissionRow } from '../rows/commissions/commission.row.js';
import { GarmentRow } from '../rows/commissions/garment.row.js';
import { FittingRow } from '../rows/fitting/fitting.row.js';
import { FittingGarmentRow } from '../rows/fitting/fitting-garment.row.js';
import { PatternRow } from '../rows/fitting/pattern.row.js';
import { PhotoRow } from '../rows/fitting/photo.row.js';
import { InvoiceRow } from '../rows/papers/invoice.row.js';
import { IssuedQuoteRow } from '../rows/papers/issued-quote.row.js';
import { QuoteAnswerRow } from '../rows/papers/quote-answer.row.js';
import { PaymentRow } from '../rows/payments/payment.row.js';
import { ReminderRow } from '../rows/payments/reminder.row.js';
import type { Reading } from '../session.js';
import { inParts } from './in-parts.js';

/** The keys by which rows hang on one client. */
export type HeldKeys = {
  readonly client: readonly string[];
  readonly set: readonly string[];
  readonly pattern: readonly string[];
  readonly photo: readonly string[];
  readonly enquiry: readonly string[];
  readonly counter: readonly string[];
  /** Commissions that are theirs, not those they only pay for or wear something of. */
  readonly commission: readonly string[];
  /** Garments of these commissions. */
  readonly ordered: readonly string[];
  /** These, and what they wear out of somebody else's commission. */
  readonly garment: readonly string[];
  readonly fitting: readonly string[];
  readonly quote: readonly string[];
  /** Quotes that were never accepted, or whose acceptance was taken back. */
  readonly openQuote: readonly string[];
  readonly invoice: readonly string[];
  readonly payment: readonly string[];
  readonly reminder: readonly string[];
};

/** Who they are and were here: every name and mark that stood on their card, now or before. */
export type HeldPerson = { readonly row: ClientRow; readonly names: string[]; readonly marks: string[] };

/** @throws NotFound */
export const heldPerson = async (reading: Reading, id: string): Promise<HeldPerson> => {
  const row = await reading.manager.findOneBy(ClientRow, { id });
  if (!row) throw new NotFound('client');
  const changes = await reading.manager.findBy(ChangeRow, { in_table: 'client', row_id: id });
  const cards = [
    row,
    ...changes
      .flatMap(({ before, after }) => [before, after])
      .flatMap((text) => (text ? [JSON.parse(text) as Partial<ClientRow>] : [])),
  ];
  const each = (read: (card: Partial<ClientRow>) => (string | undefined)[]): string[] => [
    ...new Set(cards.flatMap(read).flatMap((text) => (text ? [text] : []))),
  ];
  return {
    row,
    names: each(({ name }) => [name]),
    marks: each((card) => [card.address, card.email, card.phone, card.tax_number, card.guardian]),
  };
};

/** Looks all rows up that hang on one client. */
export const heldKeys = async (reading: Reading, person: HeldPerson): Promise<HeldKeys> => {
  const { manager } = reading;
  const client = [person.row.id];
  const keysOf = async <R extends ObjectLiteral>(
    row: EntityTarget<R>,
    column: string,
    values: readonly string[],
  ): Promise<string[]> => {
    const found: string[] = [];
    for (const part of inParts(values))
      found.push(
        ...(
          await manager
            .createQueryBuilder(row, 'held')
            .select('held.id', 'id')
            .where(`held.${column} IN (:...part)`, { part })
            .getRawMany<{ id: string }>()
        ).map(({ id }) => id),
      );
    return found;
  };
  const name = foldForSearch(person.row.name);
  const sameName = (all: readonly { id: string; name: string }[]): string[] =>
    all.flatMap((one) => (foldForSearch(one.name) === name ? [one.id] : []));
  const [commission, worn] = [
    await keysOf(CommissionRow, 'client_id', client),
    await keysOf(GarmentRow, 'wearer_id', client),
  ];
  const ordered = await keysOf(GarmentRow, 'commission_id', commission);
  const garment = [...new Set([...ordered, ...worn])];
  const fitting = new Set(await keysOf(FittingRow, 'commission_id', commission));
  for (const part of inParts(worn))
    for (const { fitting_id } of await manager
      .createQueryBuilder(FittingGarmentRow, 'tried')
      .where('tried.garment_id IN (:...part)', { part })
      .getMany())
      fitting.add(fitting_id);
  const quote = [
    ...new Set([
      ...(await keysOf(IssuedQuoteRow, 'client_id', client)),
      ...(await keysOf(IssuedQuoteRow, 'commission_id', commission)),
    ]),
  ];
  const enquiries = [
    ...(await keysOf(EnquiryRow, 'client_id', client)),
    ...(await keysOf(EnquiryRow, 'commission_id', commission)),
    ...sameName(await manager.find(EnquiryRow, { select: { id: true, name: true } })),
  ];
  const photos = new Set(await keysOf(PhotoRow, 'client_id', client));
  // At a fitting of several wearers a photograph names the first; the others may be on it too.
  const at = await manager
    .createQueryBuilder(PhotoRow, 'photo')
    .where("photo.about LIKE 'commission/%/fitting/%'")
    .getMany();
  for (const { id, about } of at) if (fitting.has(about.split('/').at(-1) ?? '')) photos.add(id);
  return {
    client,
    set: await keysOf(MeasurementSetRow, 'client_id', client),
    pattern: await keysOf(PatternRow, 'client_id', client),
    photo: [...photos],
    enquiry: [...new Set(enquiries)],
    counter: sameName(await manager.find(CounterTicketRow, { select: { id: true, name: true } })),
    commission,
    ordered,
    garment,
    fitting: [...fitting],
    quote,
    openQuote: await neverAccepted(reading, quote),
    invoice: await keysOf(InvoiceRow, 'client_id', client),
    payment: await keysOf(PaymentRow, 'client_id', client),
    reminder: await keysOf(ReminderRow, 'client_id', client),
  };
};

const neverAccepted = async (reading: Reading, quotes: readonly string[]): Promise<string[]> => {
  const accepted = new Set<string>();
  for (const part of inParts(quotes)) {
    const answers = await reading.manager
      .createQueryBuilder(QuoteAnswerRow, 'answer')
      .where('answer.quote_id IN (:...part)', { part })
      .getMany();
    const takenBack = new Set(answers.flatMap(({ corrects }) => (corrects ? [corrects] : [])));
    for (const { id, quote_id, answer } of answers)
      if (answer === 'accepted' && !takenBack.has(id)) accepted.add(quote_id);
  }
  return quotes.filter((id) => !accepted.has(id));
};
