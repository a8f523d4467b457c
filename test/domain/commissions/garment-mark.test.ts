import { describe, expect, it } from 'vitest';
import {
  type GarmentMark,
  type GarmentMarkKind,
  garmentStanding,
  isOpen,
  operationMarks,
} from '../../../src/domain/commissions/garment-mark.js';

const mark = (id: string, kind: GarmentMarkKind, more: Partial<GarmentMark> = {}): GarmentMark => ({
  id,
  garmentId: 'g',
  commissionId: 'c',
  kind,
  operationId: undefined,
  on: '2026-03-02',
  who: 'Odalys Fenwright',
  words: '',
  document: '',
  of: undefined,
  writtenAt: '2026-03-02T09:00:00Z',
  ...more,
});

describe('where a garment stands', () => {
  it.each([
    [[], 'to-make'],
    [[mark('1', 'cut')], 'cut'],
    [[mark('1', 'cut'), mark('2', 'delivered')], 'delivered'],
    [[mark('1', 'cut'), mark('2', 'delivered'), mark('3', 'closed')], 'closed'],
    [[mark('1', 'cut'), mark('2', 'cancelled')], 'cancelled'],
    [[mark('1', 'closed'), mark('2', 'closed', { of: '1' })], 'to-make'],
    [
      [mark('1', 'cut'), mark('2', 'closed'), mark('3', 'closed', { of: '2' }), mark('4', 'closed')],
      'closed',
    ],
  ] as const)('follows from its marks (%#)', (marks, standing) => {
    expect(garmentStanding(marks)).toBe(standing);
  });

  it('lets nothing more be written once it is closed or cancelled', () => {
    expect((['to-make', 'cut', 'delivered', 'cancelled', 'closed'] as const).filter(isOpen)).toEqual([
      'to-make',
      'cut',
      'delivered',
    ]);
  });

  it('knows which lines are finished, and which were left out', () => {
    const { finished, leftOut } = operationMarks([
      mark('1', 'operation-finished', { operationId: 'a' }),
      mark('2', 'operation-finished', { operationId: 'b' }),
      mark('3', 'operation-finished', { operationId: 'b', of: '2' }),
      mark('4', 'operation-left-out', { operationId: 'c' }),
    ]);
    expect([...finished]).toEqual(['a']);
    expect([...leftOut]).toEqual(['c']);
  });
});
