import { describe, expect, it } from 'vitest';
import type { CostSheetInput } from '../../../src/domain/costing/cost-lines.js';
import { drawUpCostSheet } from '../../../src/domain/costing/cost-sheet.js';
import { operationMinutes } from '../../../src/domain/costing/operation-minutes.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';

const d = (text: string | number) => new Decimal(text);

describe('the minutes of an operation', () => {
  it.each([
    ['as given', { minutes: d(90) }, '90'],
    ['fixed and by the piece', { fixedMinutes: d(10), quantity: d(11), minutesPerUnit: d(25) }, '285'],
    ['one piece when no quantity is given', { minutesPerUnit: d(25) }, '25'],
    ['fixed alone', { fixedMinutes: d(15) }, '15'],
    ['nothing said', {}, '0'],
    ['per centimetre, unrounded', { quantity: d('12.5'), minutesPerUnit: d('0.35') }, '4.375'],
  ])('%s', (_, time, minutes) => {
    expect(operationMinutes(time).toFixed()).toBe(minutes);
  });
});

describe('a cost sheet', () => {
  const input: CostSheetInput = {
    currency: 'EUR',
    labour: { perHour: d('22.69'), perHourByMode: { fitting: d(25) } },
    machinePerHour: d('3.10'),
    overhead: [
      { name: 'machine corner', base: 'machine-hours', rate: d('1.20') },
      { name: 'cloth room', base: 'material-cost', rate: d('0.05') },
    ],
    operations: [
      { name: 'seams', mode: 'machine', minutes: d(50) },
      { name: 'first fitting', mode: 'fitting', minutes: d(45) },
      { name: 'finishing', mode: 'hand', minutes: d(60), perHour: d('12.50') },
    ],
    materials: [{ name: 'tweed', quantity: d('1.5'), unitCost: d('46.01') }],
  };

  it('takes the own rate first, then the mode’s, then the plain one', () => {
    const { operations } = drawUpCostSheet(input).parts;
    expect(operations.map((line) => `${line.perHour} ${line.labour} ${line.machine}`)).toEqual([
      '22.69 18.91 2.58',
      '25 18.75 0.00',
      '12.5 12.50 0.00',
    ]);
  });

  it('spreads each pool by its own base and keeps the base beside it', () => {
    const { pools } = drawUpCostSheet(input).parts;
    expect(pools.map((pool) => `${pool.baseQuantity.toFixed(2)} × ${pool.rate} = ${pool.amount}`)).toEqual([
      '0.83 × 1.2 = 1.00',
      '69.02 × 0.05 = 3.45',
    ]);
  });

  it('is the sum of its sections', () => {
    const sheet = drawUpCostSheet(input);
    expect(`${sheet.materials} ${sheet.labour} ${sheet.machine} ${sheet.overhead} ${sheet.cost}`).toBe(
      '69.02 50.16 2.58 4.45 126.21',
    );
  });

  it('does not mistake a mode for something every object has', () => {
    const operations = [{ name: 'odd', mode: 'constructor', minutes: d(60) }];
    expect(drawUpCostSheet({ ...input, operations }).labour.toString()).toBe('22.69');
  });

  it('does not lose a minor unit to a third of an hour', () => {
    // 20 minutes at 22.605 are 7.535 exactly
    const operations = [{ name: 'hem', mode: 'hand', minutes: d(20), perHour: d('22.605') }];
    expect(drawUpCostSheet({ ...input, operations }).labour.toString()).toBe('7.54');
  });
});
