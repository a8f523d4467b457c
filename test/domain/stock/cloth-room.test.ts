import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import type { StockEntry } from '../../../src/domain/stock/entry.js';
import { chargedUnit, type Lot } from '../../../src/domain/stock/lot.js';
import { NO_LENGTH } from '../../../src/domain/stock/material.js';
import { beforeShrinking, upToStep } from '../../../src/domain/stock/need/cloth-need.js';
import { offcutQuantity } from '../../../src/domain/stock/offcut.js';
import { openPromises, type Promised, promisedTwice } from '../../../src/domain/stock/promised.js';

const d = (number: string | number) => new Decimal(number);

describe('an offcut', () => {
  it('of full width is its length; of half the width, half of it', () => {
    expect(offcutQuantity(d('0.6'), undefined, d(1500)).toNumber()).toBe(0.6);
    expect(offcutQuantity(d('0.6'), d(750), d(1500)).toNumber()).toBe(0.3);
    expect(offcutQuantity(d(1), d(500), d(1500)).toString()).toBe('0.3333');
  });

  it('is never wider than its cloth', () => {
    expect(() => offcutQuantity(d(1), d(1501), d(1500))).toThrow('wider');
    expect(() => offcutQuantity(d(1), d(0), d(1500))).toThrow('above 0');
  });
});

describe('shrinking', () => {
  it('asks for finished / (1 − shrinkage): 3 m at 4 % are 3.125 m (formula from memory, no source)', () => {
    expect(beforeShrinking(d(3), d('0.04')).toNumber()).toBe(3.125);
    expect(() => beforeShrinking(d(3), d(1))).toThrow('less than all');
    expect(() => beforeShrinking(d(3), d('-0.1'))).toThrow('0 % or more');
  });

  it('goes up to whole steps and stays on one it meets', () => {
    expect(upToStep(d('3.125'), d('0.125')).toNumber()).toBe(3.125);
    expect(upToStep(d('3.13'), d('0.125')).toNumber()).toBe(3.25);
    expect(() => upToStep(d(1), d(0))).toThrow('above 0');
  });
});

const lot = (id: string, left: number): Lot => ({
  id,
  version: 1,
  code: id,
  materialId: 'tweed',
  origin: 'stash',
  purchaseId: undefined,
  lineId: undefined,
  cameOn: '2026-03-02',
  received: d(left),
  unitPrice: undefined,
  landed: Money.zero('EUR'),
  costUnknown: false,
  left: d(left),
  value: Money.zero('EUR'),
  width: NO_LENGTH,
  dyeLot: '',
  flaws: '',
  age: 'new',
  believedAge: '',
  provenance: '',
  replacementUnitCost: d('3.20'),
  chargeAt: 'replacement',
  chargeReason: '',
  ownerId: undefined,
  smell: '',
  shrinkTest: '',
  cautions: [],
});
const promise = (id: string, garmentId: string, quantity: number, lotId?: string): Promised => ({
  id,
  version: 1,
  materialId: 'tweed',
  lotId,
  commissionId: 'one',
  garmentId,
  lineId: undefined,
  quantity: d(quantity),
  note: '',
});
const out = (garmentId: string, quantity: number): StockEntry => ({
  id: `${garmentId} ${quantity}`,
  kind: 'issue',
  materialId: 'tweed',
  on: '2026-03-02',
  at: '2026-03-02T09:00:00.000Z',
  who: 'Odalys Fenwright',
  quantity: d(-quantity),
  cost: Money.zero('EUR'),
  commissionId: 'one',
  garmentId,
  garmentName: garmentId,
  lineId: undefined,
  purchaseId: undefined,
  of: undefined,
  reason: '',
  parts: [],
});

describe('promises', () => {
  it('are served by what their garment has had, the first first', () => {
    const promises = [promise('a', 'jacket', 2), promise('b', 'jacket', 3), promise('c', 'cape', 1)];
    const open = openPromises(promises, [out('jacket', 4), out('jacket', -1)]);
    expect(open.map(({ id, open: still }) => `${id} ${still}`)).toEqual(['b 2', 'c 1']);
  });

  it('stand in the way of others, and not of their own garment', () => {
    const lots = [lot('x', 3), lot('y', 2)];
    const open = openPromises([promise('a', 'jacket', 4)], []);
    expect(promisedTwice(lots, open, 'cape', d(1))).toBeUndefined();
    expect(promisedTwice(lots, open, 'cape', d(2))?.free.toNumber()).toBe(1);
    expect(promisedTwice(lots, open, 'jacket', d(5))).toBeUndefined();
  });

  it('of any piece leave a named one free as far as others can serve them', () => {
    const lots = [lot('x', 3), lot('y', 2)];
    const open = openPromises([promise('a', 'jacket', 4)], []);
    expect(promisedTwice(lots, open, 'cape', d(1), 'x')).toBeUndefined();
    expect(promisedTwice(lots, open, 'cape', d(2), 'x')?.free.toNumber()).toBe(1);
    const named = openPromises([promise('b', 'jacket', 2, 'y')], []);
    expect(promisedTwice(lots, named, 'cape', d(3), 'x')).toBeUndefined();
    expect(promisedTwice(lots, named, 'cape', d(1), 'y')?.free.toNumber()).toBe(0);
  });
});

describe('stash', () => {
  it('is charged at replacement, at cost, or at nothing; a client’s own cloth always at nothing', () => {
    const button = lot('x', 1);
    const at = (more: Partial<Lot>) => chargedUnit({ ...button, ...more }, d('0.50')).toNumber();
    expect([at({}), at({ chargeAt: 'cost' }), at({ chargeAt: 'nil' })]).toEqual([3.2, 0.5, 0]);
    expect(at({ replacementUnitCost: undefined })).toBe(0.5);
    expect(at({ origin: 'custody' })).toBe(0);
  });
});
