import { expect } from 'vitest';
import type { WorkedMinutes } from '../../../src/domain/bench/worked.js';
import type { ExtraWork } from '../../../src/domain/commissions/extra.js';
import type { Hour } from '../../../src/domain/commissions/landing/columns.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import type { Operation } from '../../../src/domain/making/operation.js';
import type { Reckoning } from '../../../src/domain/reckoning/reckon.js';

export const eur = (amount: string): Money => Money.parse(amount, 'EUR');
export const d = (value: number | string): Decimal => new Decimal(value);

export const hour = (perHour: string, pools: Hour['overhead'] = [], machine = '0'): Hour => ({
  from: '2026-01-01',
  perHour: eur(perHour),
  perHourByMode: {},
  machinePerHour: eur(machine),
  overhead: pools,
});

export const piece = (name: string, minutes: number, more: Partial<WorkedMinutes> = {}): WorkedMinutes => ({
  entryId: 'e',
  personId: 'p',
  personName: 'Odalys Fenwright',
  on: '2026-03-02',
  operationId: name,
  kind: name,
  name,
  mode: 'hand',
  cause: undefined,
  extraId: undefined,
  minutes,
  ...more,
});

export const pockets = (minutes: number, mode: 'hand' | 'machine' = 'hand'): ExtraWork => ({
  operations: [
    {
      sign: 1,
      line: {
        id: 'x',
        kind: 'bellows pockets',
        name: 'bellows pockets',
        stage: 'make',
        mode,
        modeShares: [],
        basting: false,
        driver: 'once',
        quantity: d(1),
        fixedMinutes: d(minutes),
        minutesPerUnit: d(0),
        needsMinutes: false,
        fromStartingValues: false,
        shownToClient: true,
        clientWording: '',
      } satisfies Operation,
    },
  ],
  materials: [],
  expenses: [],
});

export const addsUp = ({
  quotedProfit,
  bridge,
  actualProfit,
}: Pick<Reckoning, 'quotedProfit' | 'bridge' | 'actualProfit'>) =>
  expect(quotedProfit.minor + bridge.reduce((sum, { amount }) => sum + amount.minor, 0)).toBe(
    actualProfit.minor,
  );

export const step = (reckoning: Reckoning, name: string): string =>
  reckoning.bridge
    .find((one) => one.step === name)
    ?.amount.toDecimal()
    .toFixed(2) ?? '';
