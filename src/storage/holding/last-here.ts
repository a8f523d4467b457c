import type { CalendarDate } from '../../domain/kernel/calendar-date.js';
import { MeasurementSetRow } from '../rows/clients/measurement-set.row.js';
import { CommissionRow } from '../rows/commissions/commission.row.js';
import { GarmentRow } from '../rows/commissions/garment.row.js';
import { GarmentMarkRow } from '../rows/commissions/garment-mark.row.js';
import { FittingRow } from '../rows/fitting/fitting.row.js';
import { InvoiceRow } from '../rows/papers/invoice.row.js';
import { PaymentRow } from '../rows/payments/payment.row.js';
import type { Reading } from '../session.js';

type Latest = { readonly client: string; readonly day: CalendarDate };

/** When each client was last measured, fitted, worked for or paid; a client of whom none of it is known is left out. */
export const lastHere = async ({ manager }: Reading): Promise<ReadonlyMap<string, CalendarDate>> => {
  const latest = (row: new () => object, client: string, day: string): Promise<Latest[]> =>
    manager
      .createQueryBuilder(row, 'row')
      .select(`row.${client}`, 'client')
      .addSelect(`MAX(row.${day})`, 'day')
      .groupBy(`row.${client}`)
      .getRawMany<Latest>();
  const throughCommission = (row: new () => object, day: string): Promise<Latest[]> =>
    manager
      .createQueryBuilder(row, 'row')
      .innerJoin(CommissionRow, 'commission', 'commission.id = row.commission_id')
      .select('commission.client_id', 'client')
      .addSelect(`MAX(row.${day})`, 'day')
      .groupBy('commission.client_id')
      .getRawMany<Latest>();
  const worn = manager
    .createQueryBuilder(GarmentRow, 'garment')
    .innerJoin(CommissionRow, 'commission', 'commission.id = garment.commission_id')
    .select('garment.wearer_id', 'client')
    .addSelect('MAX(commission.opened_on)', 'day')
    .groupBy('garment.wearer_id')
    .getRawMany<Latest>();
  const found = await Promise.all([
    latest(MeasurementSetRow, 'client_id', 'taken_on'),
    latest(CommissionRow, 'client_id', 'opened_on'),
    latest(CommissionRow, 'payer_id', 'opened_on'),
    latest(InvoiceRow, 'client_id', 'issued_on'),
    latest(PaymentRow, 'client_id', 'on_day'),
    throughCommission(FittingRow, 'on_day'),
    throughCommission(GarmentMarkRow, 'on_day'),
    worn,
  ]);
  const days = new Map<string, CalendarDate>();
  for (const { client, day } of found.flat())
    if (client && day > (days.get(client) ?? '')) days.set(client, day);
  return days;
};
