import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Invalid } from '../../../src/domain/kernel/errors.js';
import { knownOperation, operationFrom, startingSpread } from '../../../src/domain/making/known-operation.js';
import {
  operation,
  plannedMinutes,
  withOwnMinutes,
  wordingForClient,
} from '../../../src/domain/making/operation.js';
import { aKnown, anOperation } from './an-operation.js';

const line = {
  garment_type: 'lounge-jacket',
  no: '32',
  kind: 'buttonholes',
  stage: 'finish',
  operation: 'Buttonholes, hand-worked',
  mode: 'hand',
  driver: 'each',
  typical_count: '11',
  low_h: '0.33',
  typical_h: '0.42',
  high_h: '0.75',
  note: '',
  basting: '',
  instead_of: '',
  makes: '',
  source: 'test',
};

const fieldsAtFault = (work: () => unknown): string[] => {
  try {
    work();
  } catch (trouble) {
    if (trouble instanceof Invalid) return trouble.fields.map(({ field }) => field);
    throw trouble;
  }
  return [];
};

describe('planned minutes', () => {
  it('are fixed + quantity × per unit', () => {
    expect(plannedMinutes(anOperation())).toBe(285);
  });

  it('are rounded once, half away from zero', () => {
    const each = anOperation({ fixedMinutes: new Decimal(0), minutesPerUnit: new Decimal('25.2') });
    expect(plannedMinutes(each)).toBe(277);
    expect(plannedMinutes({ ...each, quantity: new Decimal('2.5'), minutesPerUnit: new Decimal(1) })).toBe(3);
  });

  it('are nought while nobody has said how long it takes, and the maker’s own afterwards', () => {
    const unknown = anOperation({ needsMinutes: true, fromStartingValues: true });
    expect(plannedMinutes(unknown)).toBe(0);
    const known = withOwnMinutes(unknown, new Decimal(20));
    expect(plannedMinutes(known)).toBe(220);
    expect(known).toMatchObject({ needsMinutes: false, fromStartingValues: false });
    expect(plannedMinutes(withOwnMinutes({ ...unknown, driver: 'once' }, new Decimal(20)))).toBe(20);
  });
});

describe('an operation', () => {
  it('says by the field what will not do', () => {
    expect(fieldsAtFault(() => operation(anOperation({ name: ' ' })))).toEqual(['name']);
    expect(fieldsAtFault(() => operation(anOperation({ name: 'x'.repeat(400) })))).toEqual(['name']);
    expect(fieldsAtFault(() => operation(anOperation({ quantity: new Decimal(-1) })))).toEqual(['quantity']);
    expect(fieldsAtFault(() => operation(anOperation({ quantity: new Decimal(Number.NaN) })))).toEqual([
      'quantity',
    ]);
    expect(fieldsAtFault(() => operation(anOperation({ minutesPerUnit: new Decimal('1e308') })))).toEqual([
      'minutesPerUnit',
    ]);
    const shares = [{ mode: 'hand' as const, share: new Decimal('0.9') }];
    expect(fieldsAtFault(() => operation(anOperation({ modeShares: shares })))).toEqual(['modeShares']);
    expect(fieldsAtFault(() => operation(anOperation()))).toEqual([]);
  });

  it('is shown to the client in the client’s words, else by its name', () => {
    expect(wordingForClient(anOperation({ clientWording: 'Hand-worked buttonholes' }))).toBe(
      'Hand-worked buttonholes',
    );
    expect(wordingForClient(anOperation())).toBe('Buttonholes');
  });
});

describe('a known operation', () => {
  it('takes hours each for what it goes by', () => {
    const known = knownOperation(line);
    const one = operationFrom(known, 'op-1');
    expect(one).toMatchObject({ kind: 'buttonholes', driver: 'each', fromStartingValues: true });
    expect(one.minutesPerUnit.toFixed()).toBe('25.2');
    expect(plannedMinutes(one)).toBe(277);
    expect(plannedMinutes(operationFrom(known, 'op-2', new Decimal(5)))).toBe(126);
  });

  it('done once but wanted twice goes by each', () => {
    const two = operationFrom(aKnown('Hip pockets'), 'op-1', new Decimal(2));
    expect(two.driver).toBe('each');
    expect(plannedMinutes(two)).toBe(180);
    expect(plannedMinutes(operationFrom(aKnown('Hip pockets'), 'op-1', new Decimal(1)))).toBe(90);
  });

  // (ln 0.75 − ln 0.33) / 2.563, worked by hand: 0.8209805520698302 / 2.563.
  it('has a starting spread from its low and high', () => {
    expect(startingSpread(new Decimal('0.33'), new Decimal('0.75')).toFixed()).toBe('0.3203');
    expect(startingSpread(new Decimal(2), new Decimal(2)).isZero()).toBe(true);
  });

  it('needs minutes where the starting values know none', () => {
    const ask = knownOperation({ ...line, note: 'ask', driver: 'cm2', low_h: '', typical_h: '', high_h: '' });
    expect(ask).toMatchObject({ needsMinutes: true, isAlternative: true });
    expect(operationFrom(ask, 'op-1').needsMinutes).toBe(true);
  });

  it.each([
    ['stage', 'dream'],
    ['mode', 'magic'],
    ['driver', 'furlong'],
    ['note', 'perhaps'],
    ['no', '0'],
    ['low_h', ''],
    ['high_h', '-1'],
    ['makes', 'all-hand by-magic'],
    ['source', ' '],
    ['operation', ''],
  ])('refuses a line whose %s is “%s”', (column, text) => {
    expect(fieldsAtFault(() => knownOperation({ ...line, [column]: text }))).toEqual([column]);
  });
});
