import { In } from 'typeorm';
import type { Fitting } from '../../../domain/fitting/fitting.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { ClientRow } from '../../rows/clients/client.row.js';
import { CommissionRow } from '../../rows/commissions/commission.row.js';
import { GarmentRow } from '../../rows/commissions/garment.row.js';
import type { Reading } from '../../session.js';
import { fittingBook } from './fitting-book.js';

/** A garment as a calendar may name it: what it is and its number, never whose it is. */
export type NamedGarment = { readonly id: string; readonly place: number; readonly typeId: string };

/** A garment with the day it was promised for. */
export type PromisedDay = NamedGarment & {
  readonly version: number;
  readonly dueOn: CalendarDate;
  readonly clientCode: string;
};

export type FittingDay = Fitting & {
  readonly garments: readonly NamedGarment[];
  readonly clientCode: string;
};

const MOST_AT_ONCE = 500;

/** Fittings from one day to another with their garments and clients' codes, by day and time. */
export const fittingDays = async (
  reading: Reading,
  from: CalendarDate,
  to: CalendarDate,
): Promise<FittingDay[]> => {
  const fittings = await fittingBook.between(reading, from, to);
  const garments = new Map<string, NamedGarment>();
  const ids = [...new Set(fittings.flatMap(({ garmentIds }) => garmentIds))];
  for (let at = 0; at < ids.length; at += MOST_AT_ONCE)
    for (const { id, place, type_id } of await reading.manager.find(GarmentRow, {
      select: { id: true, place: true, type_id: true },
      where: { id: In(ids.slice(at, at + MOST_AT_ONCE)) },
    }))
      garments.set(id, { id, place, typeId: type_id });
  const codes = await codesOf(reading, [...new Set(fittings.map(({ commissionId }) => commissionId))]);
  return fittings.map((fitting) => ({
    ...fitting,
    garments: fitting.garmentIds.flatMap((id) => garments.get(id) ?? []),
    clientCode: codes.get(fitting.commissionId) ?? '',
  }));
};

const codesOf = async (reading: Reading, commissionIds: readonly string[]): Promise<Map<string, string>> => {
  const codes = new Map<string, string>();
  for (let at = 0; at < commissionIds.length; at += MOST_AT_ONCE) {
    const rows = await reading.manager
      .createQueryBuilder(CommissionRow, 'commission')
      .innerJoin(ClientRow, 'client', 'client.id = commission.client_id')
      .select('commission.id', 'id')
      .addSelect('client.code', 'code')
      .where({ id: In(commissionIds.slice(at, at + MOST_AT_ONCE)) })
      .getRawMany<{ id: string; code: string }>();
    for (const { id, code } of rows) codes.set(id, code);
  }
  return codes;
};

/** What was promised from one day to another, both included, by day. */
export const promisedDays = (
  reading: Reading,
  from: CalendarDate,
  to: CalendarDate,
  most = 2000,
): Promise<PromisedDay[]> =>
  reading.manager
    .createQueryBuilder(GarmentRow, 'garment')
    .innerJoin(CommissionRow, 'commission', 'commission.id = garment.commission_id')
    .innerJoin(ClientRow, 'client', 'client.id = commission.client_id')
    .select('garment.id', 'id')
    .addSelect('garment.version', 'version')
    .addSelect('garment.place', 'place')
    .addSelect('garment.type_id', 'typeId')
    .addSelect('garment.due_on', 'dueOn')
    .addSelect('client.code', 'clientCode')
    .where('garment.due_on >= :from AND garment.due_on <= :to', { from, to })
    .orderBy('garment.due_on')
    .addOrderBy('garment.id')
    .limit(most)
    .getRawMany<PromisedDay>();
