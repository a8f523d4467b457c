import { In } from 'typeorm';
import { foldForSearch } from '../../domain/clients/client.js';
import type { Commission } from '../../domain/commissions/commission.js';
import type { GarmentStanding } from '../../domain/commissions/garment-mark.js';
import { NotFound } from '../../domain/kernel/errors.js';
import { Money } from '../../domain/kernel/money.js';
import { numberSeries } from '../../domain/papers/numbering/number-series.js';
import { ClientRow } from '../rows/clients/client.row.js';
import { CommissionRow } from '../rows/commissions/commission.row.js';
import { GarmentRow } from '../rows/commissions/garment.row.js';
import type { Reading, Writing } from '../session.js';
import { garmentMarkBook } from './bench/garment-mark-book.js';
import type { PageOf } from './client-book.js';
import { pricingColumns, pricingOf } from './pricing-columns.js';
import { seriesBook } from './series-book.js';
import { studioBook } from './studio-book.js';

/** What people say about a commission; its number is the studio's. */
export type CommissionWords = Omit<Commission, 'id' | 'version' | 'number'>;

/** A commission as a line of the list: with its client's name, how many garments it holds and where they stand. */
export type ListedCommission = Commission & {
  readonly clientName: string;
  readonly garments: number;
  /** How many are cut, handed over, cancelled, closed; the others are to be made. */
  readonly standings: Readonly<Partial<Record<GarmentStanding, number>>>;
};

/** The book of commissions. */
export const commissionBook = {
  /** @throws NotFound */
  async one(reading: Reading, id: string): Promise<Commission> {
    const row = await reading.manager.findOneBy(CommissionRow, { id });
    if (!row) throw new NotFound('commission');
    return commissionOf(row, await currencyOf(reading));
  },

  /** Newest first, found by number, title, order number or the client; of one client where `clientId` names one. */
  async find(
    reading: Reading,
    asked = '',
    limit = 20,
    after = '',
    clientId = '',
  ): Promise<PageOf<ListedCommission>> {
    const query = reading.manager
      .createQueryBuilder(CommissionRow, 'one')
      .innerJoin(ClientRow, 'client', 'client.id = one.client_id')
      .orderBy('one.id', 'DESC');
    foldForSearch(asked)
      .split(' ')
      .filter((word) => word !== '')
      .slice(0, 8)
      .forEach((word, index) => {
        const pattern = `%${word.replace(/[\\%_]/g, '\\$&')}%`;
        query.andWhere(
          `(one.folded LIKE :word${index} ESCAPE '\\' OR client.folded LIKE :word${index} ESCAPE '\\')`,
          { [`word${index}`]: pattern },
        );
      });
    if (after) query.andWhere('one.id < :after', { after });
    if (clientId) query.andWhere('one.client_id = :clientId', { clientId });
    const rows = await query.limit(limit + 1).getMany();
    return {
      items: await listedOf(reading, rows.slice(0, limit)),
      next: rows.length > limit ? rows[limit - 1]?.id : undefined,
    };
  },

  /** A client's commissions, newest first. */
  async ofClient(reading: Reading, clientId: string): Promise<Commission[]> {
    const rows = await reading.manager.find(CommissionRow, {
      where: { client_id: clientId },
      order: { id: 'DESC' },
      take: 100,
    });
    const currency = rows.length > 0 ? await currencyOf(reading) : '';
    return rows.map((row) => commissionOf(row, currency));
  },

  /** Opens a commission under the next number of the studio's series. */
  async open(writing: Writing, words: CommissionWords): Promise<Commission> {
    const studio = await studioBook.the(writing);
    const series = numberSeries.parse(studio.commissionSeries);
    const period = numberSeries.periodOf(series, words.openedOn);
    const count = await seriesBook.take(writing, `commission/${period}`, series.pattern);
    const number = numberSeries.format(series, count, words.openedOn);
    const id = writing.newId();
    const row = await writing.insert(CommissionRow, { id, number, ...columnsOf(words, number) });
    return commissionOf(row, studio.identity.currency);
  },

  /** @throws Stale when it has changed since `seen` */
  async correct(writing: Writing, commission: Commission, seen?: number): Promise<Commission> {
    const { id, number, version: _, ...words } = commission;
    const row = await writing.update(CommissionRow, id, columnsOf(words, number), seen);
    return commissionOf(row, words.discount.currency);
  },
};

const listedOf = async (reading: Reading, rows: CommissionRow[]): Promise<ListedCommission[]> => {
  if (rows.length === 0) return [];
  const { manager } = reading;
  const clients = await manager.find(ClientRow, {
    select: { id: true, name: true },
    where: { id: In(rows.map((row) => row.client_id)) },
  });
  const garments = await manager
    .createQueryBuilder(GarmentRow, 'garment')
    .select('garment.commission_id', 'id')
    .addSelect('COUNT(*)', 'count')
    .where({ commission_id: In(rows.map((row) => row.id)) })
    .groupBy('garment.commission_id')
    .getRawMany<{ id: string; count: number | string }>();
  const names = new Map(clients.map(({ id, name }) => [id, name]));
  const counts = new Map(garments.map(({ id, count }) => [id, Number(count)]));
  const standings = await garmentMarkBook.standingsIn(
    reading,
    rows.map(({ id }) => id),
  );
  const currency = await currencyOf(reading);
  return rows.map((row) => ({
    ...commissionOf(row, currency),
    standings: countedBy(standings.get(row.id) ?? []),
    clientName: names.get(row.client_id) ?? '',
    garments: counts.get(row.id) ?? 0,
  }));
};

const countedBy = (
  found: readonly { readonly standing: GarmentStanding }[],
): ListedCommission['standings'] => {
  const counts: Partial<Record<GarmentStanding, number>> = {};
  for (const { standing } of found)
    if (standing !== 'to-make') counts[standing] = (counts[standing] ?? 0) + 1;
  return counts;
};

const currencyOf = async (reading: Reading): Promise<string> =>
  (await studioBook.the(reading)).identity.currency;

const commissionOf = (row: CommissionRow, currency: string): Commission => ({
  id: row.id,
  version: row.version,
  number: row.number,
  clientId: row.client_id,
  payerId: row.payer_id ?? row.client_id,
  title: row.title,
  orderNumber: row.order_number,
  openedOn: row.opened_on,
  wantedBy: row.wanted_by ?? undefined,
  notes: row.notes,
  pricing: pricingOf(row, currency),
  discount: Money.ofMinor(row.discount, currency),
});

const columnsOf = (
  words: CommissionWords,
  number: string,
): Omit<CommissionRow, 'id' | 'version' | 'number'> => ({
  client_id: words.clientId,
  payer_id: words.payerId === words.clientId ? null : words.payerId,
  title: words.title,
  order_number: words.orderNumber,
  opened_on: words.openedOn,
  wanted_by: words.wantedBy ?? null,
  notes: words.notes,
  folded: foldForSearch([number, words.title, words.orderNumber].join(' ')),
  ...pricingColumns(words.pricing),
  discount: words.discount.minor,
});
