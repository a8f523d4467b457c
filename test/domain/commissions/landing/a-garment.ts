import type { WorkedMinutes } from '../../../../src/domain/bench/worked.js';
import type { Hour, HourOn } from '../../../../src/domain/commissions/landing/columns.js';
import type { GarmentUnderWay } from '../../../../src/domain/commissions/landing/landing.js';
import { Decimal } from '../../../../src/domain/kernel/decimal.js';
import { Money } from '../../../../src/domain/kernel/money.js';

export const euro = (text: string): Money => Money.parse(text, 'EUR');

/** 20 an hour, a machine hour at 3, overhead of 6 an hour worked and a tenth of the materials. */
export const anHour: Hour = {
  from: '2026-01-01',
  perHour: euro('20.00'),
  perHourByMode: {},
  machinePerHour: euro('3.00'),
  overhead: [
    { name: 'Workroom', base: 'productive-hours', rate: new Decimal(6) },
    { name: 'Cloth room', base: 'material-cost', rate: new Decimal('0.1') },
  ],
};

/** Dearer from April on. */
export const dearerInApril: HourOn = (day) =>
  day < '2026-04-01' ? anHour : { ...anHour, from: '2026-04-01', perHour: euro('24.00') };

export const minutesOn = (
  operationId: string | undefined,
  minutes: number,
  more: Partial<WorkedMinutes> = {},
): WorkedMinutes => ({
  entryId: `${operationId ?? 'beside'} ${minutes}`,
  personId: 'p',
  personName: 'Odalys Fenwright',
  on: '2026-03-02',
  operationId,
  kind: operationId ?? '',
  name: operationId ?? 'Beside the plan',
  mode: 'hand',
  cause: undefined,
  extraId: undefined,
  minutes,
  ...more,
});

export const underWay = (more: Partial<GarmentUnderWay>): GarmentUnderWay => ({
  typeId: 'lounge-jacket',
  plan: [],
  worked: [],
  finished: new Set(),
  leftOut: new Set(),
  used: [],
  materialsToCome: euro('0.00'),
  expensesSoFar: euro('0.00'),
  expensesToCome: euro('0.00'),
  price: euro('200.00'),
  ...more,
});
