import { describe, expect, it } from 'vitest';
import { likeliestOperations } from '../../../src/domain/bench/likeliest.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import type { Stage } from '../../../src/domain/making/mode.js';
import type { Operation } from '../../../src/domain/making/operation.js';

const operation = (id: string, stage: Stage): Operation => ({
  id,
  kind: id,
  name: id,
  stage,
  mode: 'hand',
  modeShares: [],
  basting: false,
  driver: 'once',
  quantity: new Decimal(1),
  fixedMinutes: new Decimal(60),
  minutesPerUnit: new Decimal(0),
  needsMinutes: false,
  fromStartingValues: false,
  shownToClient: false,
  clientWording: '',
});

const PLAN = [
  operation('draft', 'draft'),
  operation('lay', 'cut'),
  operation('trimmings', 'cut'),
  operation('canvas', 'baste'),
  operation('baste-up', 'baste'),
  operation('fitting', 'fit'),
  operation('pockets', 'make'),
  operation('sleeves', 'make'),
];

type Asked = {
  finished?: string[];
  leftOut?: string[];
  isCut?: boolean;
  worked?: (string | { stage: Stage })[];
  most?: number;
};
const likeliest = ({ finished = [], leftOut = [], isCut, worked = [], most }: Asked): string[] =>
  likeliestOperations(
    PLAN,
    {
      finished: new Set(finished),
      leftOut: new Set(leftOut),
      isCut,
      worked: worked.map((one) => (typeof one === 'string' ? { operationId: one } : one)),
    },
    most,
  ).map(({ id }) => id);

describe('the likeliest next operations', () => {
  it('are the first of the plan before anything was worked', () => {
    expect(likeliest({})).toEqual(['draft', 'lay', 'trimmings', 'canvas', 'baste-up']);
  });

  it('go on where work stopped, then on in the stage, then on in the plan', () => {
    expect(likeliest({ finished: ['draft'], worked: ['canvas'] })).toEqual([
      'canvas',
      'baste-up',
      'fitting',
      'pockets',
      'sleeves',
    ]);
  });

  it('leave out what is finished or left out, and come back to what was begun', () => {
    expect(
      likeliest({
        finished: ['draft', 'canvas'],
        leftOut: ['fitting'],
        worked: ['canvas', 'sleeves', 'lay'],
      }),
    ).toEqual(['baste-up', 'sleeves', 'lay', 'pockets', 'trimmings']);
  });

  it('begin behind the cutting once the garment is cut, though nothing before it was timed', () => {
    const behind = ['canvas', 'baste-up', 'fitting', 'pockets', 'sleeves'];
    expect(likeliest({ isCut: true })).toEqual(behind);
    expect(likeliest({ isCut: true, worked: ['draft'] })).toEqual([
      'canvas',
      'baste-up',
      'draft',
      'fitting',
      'pockets',
    ]);
    expect(likeliest({ isCut: true, worked: ['canvas', 'lay'], most: 20 })).not.toContain('lay');
    expect(likeliest({ isCut: true, most: 20 })).not.toContain('trimmings');
    expect(likeliest({ isCut: true, worked: ['lay'], most: 3 })).toEqual(['lay', 'trimmings', 'canvas']);
    expect(likeliest({ isCut: true, worked: ['pockets'], most: 2 })).toEqual(['pockets', 'sleeves']);
  });

  it('begin a whole stage at its first operation', () => {
    expect(likeliest({ worked: [{ stage: 'make' }], most: 2 })).toEqual(['pockets', 'sleeves']);
  });

  it('pass over work that has left the plan, and end with the plan', () => {
    expect(likeliest({ worked: ['taken-out', 'pockets'], most: 2 })).toEqual(['pockets', 'sleeves']);
    expect(likeliest({ finished: PLAN.map(({ id }) => id) })).toEqual([]);
  });
});
