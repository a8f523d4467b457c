import { Decimal } from '../../../src/domain/kernel/decimal.js';
import type { KnownOperation } from '../../../src/domain/making/known-operation.js';
import type { Operation } from '../../../src/domain/making/operation.js';

export const anOperation = (change: Partial<Operation> = {}): Operation => ({
  id: 'op-1',
  kind: 'buttonholes',
  name: 'Buttonholes',
  stage: 'finish',
  mode: 'hand',
  modeShares: [],
  basting: false,
  driver: 'each',
  quantity: new Decimal(11),
  fixedMinutes: new Decimal(10),
  minutesPerUnit: new Decimal(25),
  needsMinutes: false,
  fromStartingValues: false,
  shownToClient: false,
  clientWording: '',
  ...change,
});

export const aKnown = (name: string, change: Partial<KnownOperation> = {}): KnownOperation => ({
  garmentType: 'lounge-jacket',
  no: 1,
  kind: name.toLowerCase().replace(/[^a-z]+/g, '-'),
  name,
  stage: 'make',
  mode: 'hand',
  driver: 'once',
  typicalCount: new Decimal(1),
  fixedMinutes: new Decimal(90),
  minutesPerUnit: new Decimal(0),
  needsMinutes: false,
  basting: false,
  isAlternative: false,
  insteadOf: [],
  makes: [],
  isMenu: false,
  fromStartingValues: true,
  source: 'test',
  ...change,
});

/** Ids a test can count: op-1, op-2 … */
export const countingIds = (): (() => string) => {
  let count = 0;
  return () => {
    count += 1;
    return `op-${count}`;
  };
};
