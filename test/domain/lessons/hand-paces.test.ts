import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { closeGarment, type GarmentToClose } from '../../../src/domain/lessons/close-garment.js';
import { closedGarmentText, readClosedGarment } from '../../../src/domain/lessons/closed-garment.js';
import { handPaces, sewnSeam } from '../../../src/domain/lessons/hand-paces.js';
import { anOperation } from '../commissions/an-extra.js';
import { minutesOn } from '../commissions/landing/a-garment.js';

const close = (input: Pick<GarmentToClose, 'plan' | 'worked'>) =>
  closeGarment({
    ...{ garmentId: 'g', commissionId: 'c', name: 'Jacket', typeId: 'lounge-jacket', closedOn: '2026-02-20' },
    ...{ repeat: 1, leftOut: new Set<string>(), everyTime: new Set<string>() },
    ...input,
  });
const felling = (more = {}) => ({
  ...anOperation('felling', 120),
  handStitch: {
    lengthMm: new Decimal(1200),
    stitchesPerCm: new Decimal(5),
    stitchesPerMinute: new Decimal(20),
  },
  ...more,
});
const sewn = (minutes: number, more = {}) =>
  close({ plan: [felling(more)], worked: [minutesOn('felling', minutes)] });

describe('the pace of a hand stitch', () => {
  it('freezes the seam with the closing: stitches of one times how many, and reads it back', () => {
    expect(sewnSeam(felling())).toEqual({ lengthMm: 1200, stitches: 600 });
    expect(sewnSeam(felling({ driver: 'each', quantity: new Decimal(3) }))).toEqual({
      lengthMm: 3600,
      stitches: 1800,
    });
    expect(sewnSeam(anOperation('basting', 60))).toBeUndefined();
    const read = readClosedGarment(closedGarmentText(sewn(60)));
    expect(read?.operations[0]?.seam).toEqual({ lengthMm: 1200, stitches: 600 });
  });

  it('is stitches over hours, at the density the seams had', () => {
    const [pace] = handPaces([sewn(60)]);
    expect(pace).toMatchObject({ kind: 'felling', garments: 1 });
    expect(pace?.typical).toBeCloseTo(600, 6);
    expect(pace?.cmAnHour).toBeCloseTo(120, 6);
    // Of several the middle is the geometric one: 600 and 150 an hour, and 300 between them.
    const both = handPaces([sewn(60), sewn(240)])[0];
    expect([both?.garments, both?.typical.toFixed(3)]).toEqual([2, '300.000']);
    expect(both?.ofEach.map(({ pace: each }) => each.toFixed(3))).toEqual(['600.000', '150.000']);
    expect(both!.low80).toBeLessThan(300);
    expect(both!.high80).toBeGreaterThan(300);
  });

  it('tells each garment of the newest hundred, and which one the middle does not follow', () => {
    const alike = Array.from({ length: 104 }, () => sewn(60));
    const [pace] = handPaces([...alike, sewn(6)]);
    expect([pace?.garments, pace?.ofEach.length]).toEqual([105, 100]);
    expect(pace?.ofEach.filter(({ isFarOff }) => isFarOff)).toHaveLength(1);
    expect(pace?.ofEach.at(-1)?.isFarOff).toBe(true);
    expect(pace?.typical).toBeCloseTo(600, 6);
  });

  it('says nothing of what was not sewn, took no time, or has no seam', () => {
    expect(handPaces([])).toEqual([]);
    expect(handPaces([sewn(60, { mode: 'machine' }), sewn(60, { handStitch: undefined })])).toEqual([]);
    expect(handPaces([close({ plan: [felling()], worked: [] })])).toEqual([]);
  });
});
