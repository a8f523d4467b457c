import type { Extra, ExtraLine } from '../../../src/domain/commissions/extra.js';
import type { MaterialLine } from '../../../src/domain/commissions/garment.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import type { Stage } from '../../../src/domain/making/mode.js';
import type { Operation } from '../../../src/domain/making/operation.js';

/** One operation of whole minutes. */
export const anOperation = (id: string, minutes: number, stage: Stage = 'make'): Operation => ({
  id,
  kind: id,
  name: id,
  stage,
  mode: 'hand',
  modeShares: [],
  basting: false,
  driver: 'once',
  quantity: new Decimal(1),
  fixedMinutes: new Decimal(minutes),
  minutesPerUnit: new Decimal(0),
  needsMinutes: false,
  fromStartingValues: false,
  shownToClient: false,
  clientWording: '',
});

export const aMaterial = (id: string, quantity: string, unitCost: string): MaterialLine => ({
  id,
  version: 1,
  name: id,
  quantity: new Decimal(quantity),
  unit: 'm',
  unitCost: new Decimal(unitCost),
  wasteShare: new Decimal('0.1'),
  wasteOf: 'net',
  handling: false,
  replacementUnitCost: undefined,
  chargeAt: 'replacement',
  shownToClient: false,
  clientWording: '',
});

export const added = <Line>(line: Line): ExtraLine<Line> => ({ sign: 1, line });
export const takenOut = <Line>(line: Line): ExtraLine<Line> => ({ sign: -1, line });

/** Extra 1: bellows pockets the client asked for at the first fitting. */
export const anExtra = (more: Partial<Extra> = {}): Extra => ({
  id: 'x1',
  version: 1,
  number: 1,
  commissionId: 'c1',
  garmentId: 'g1',
  cause: 'client asked',
  kind: 'charged',
  wording: 'Bellows pockets in place of jetted ones',
  price: Money.parse('120.00', 'EUR'),
  pricesInclude: 'none',
  category: 'S',
  rate: new Decimal(21),
  work: {
    operations: [added(anOperation('bellows pockets', 240)), takenOut(anOperation('jetted pockets', 90))],
    materials: [added(aMaterial('pocketing', '0.5', '12'))],
    expenses: [],
  },
  dueBefore: '2026-05-01',
  dueAfter: '2026-05-04',
  takesBack: undefined,
  offeredOn: '2026-03-02',
  state: 'offered',
  answer: undefined,
  writtenAt: '2026-03-02T09:00:00Z',
  ...more,
});

export const agreedOn = (on: string): Partial<Extra> => ({
  state: 'agreed',
  answer: { on, byWhom: 'Corvin Haddlestone', how: 'in person', words: '' },
});
