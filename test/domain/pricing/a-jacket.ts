import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import type { PriceInput } from '../../../src/domain/pricing/price-terms.js';

export const d = (text: string | number) => new Decimal(text);
export const eur = (text: string) => Money.parse(text, 'EUR');

/** The example of the JSON interface: a tweed jacket's lapels and buttonholes. */
export const aJacket = (): PriceInput => ({
  currency: 'EUR',
  labour: { perHour: d('22.69'), perHourByMode: { fitting: d('25.00') } },
  machinePerHour: d('3.00'),
  overhead: [
    { name: 'workroom', base: 'productive-hours', rate: d('5.38') },
    { name: 'finishing', base: 'labour-cost', rate: d('0.125') },
  ],
  operations: [
    { name: 'pad stitch lapels', mode: 'hand', minutes: d(90) },
    { name: 'buttonholes', mode: 'hand', fixedMinutes: d(10), quantity: d(11), minutesPerUnit: d(25) },
  ],
  materials: [
    { name: 'tweed', quantity: d('5.20'), unitCost: d('46.00'), wasteShare: d(0), handling: true },
    {
      name: 'horn buttons',
      quantity: d(11),
      unitCost: d(0),
      replacementUnitCost: d('3.20'),
      chargeAt: 'replacement',
    },
  ],
  expenses: [{ name: 'courier', amount: eur('12.00') }],
  pricing: {
    margin: d('0.10'),
    handlingShare: d('0.15'),
    minimumCharge: eur('18.00'),
    rushShare: d(0),
    rushOn: 'labour',
    discount: eur('0.00'),
    roundTo: eur('0.01'),
  },
  tax: { category: 'S', rate: d(21) },
});

export const plainHours = (minutes: number, more: Partial<PriceInput> = {}): PriceInput => ({
  currency: 'EUR',
  labour: { perHour: d(20) },
  operations: [{ name: 'sewing', mode: 'hand', minutes: d(minutes) }],
  ...more,
});
