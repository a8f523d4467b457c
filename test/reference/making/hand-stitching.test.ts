import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Invalid } from '../../../src/domain/kernel/errors.js';
import { handStitching } from '../../../src/domain/making/hand-stitching.js';

const d = (number: string | number) => new Decimal(number);

/**
 * W. Hone, Every-Day Book, 12 October (1826), lists the stitches of one plain shirt, part by part, as copied by
 * regencywritings.blogspot.com: 20,696, or 20,548 without the 148 of its button-holes (sums derived).
 */
const STITCHES_OF_A_SHIRT = d(20_548);

describe('hand stitching', () => {
  it('WS-12 a shirt at 23 stitches a minute: 893.4 min, 14.89 h (G. R. Cooper, The Invention of the Sewing Machine, Smithsonian Bulletin 254, 1968, appendix I; answer derived)', () => {
    const shirt = handStitching({ stitches: STITCHES_OF_A_SHIRT, stitchesPerMinute: d(23) });
    expect(shirt.minutes.toFixed(1)).toBe('893.4');
    expect(shirt.minutes.div(60).toFixed(2)).toBe('14.89');
    expect(shirt.threadChanges).toBe(0);
  });

  it('is close to the 14 h 26 min published for a gentleman’s shirt by hand (1861 trial; smore.com/ftt6, secondary)', () => {
    const { minutes } = handStitching({ stitches: STITCHES_OF_A_SHIRT, stitchesPerMinute: d(23) });
    expect(
      minutes
        .div(14 * 60 + 26)
        .minus(1)
        .abs()
        .lt('0.05'),
    ).toBe(true);
  });

  it('WS-13 5.40 m at 5 to the centimetre and 12 a minute, 48 threads: 261 min (constructed)', () => {
    const seam = handStitching({
      lengthMm: d(5400),
      stitchesPerCm: d(5),
      stitchesPerMinute: d(12),
      thread: { perSeamLength: d(4), lengthMm: d(450), changeMinutes: d('0.75') },
    });
    expect([seam.stitches.toFixed(), seam.threadChanges, seam.minutes.toFixed()]).toEqual([
      '2700',
      48,
      '261',
    ]);
  });

  it('takes a whole needleful for the last centimetre', () => {
    const seam = handStitching({
      lengthMm: d(113),
      stitchesPerCm: d(5),
      stitchesPerMinute: d(10),
      thread: { perSeamLength: d(4), lengthMm: d(450), changeMinutes: d(1) },
    });
    expect([seam.threadChanges, seam.minutes.toFixed()]).toEqual([2, '7.65']);
  });

  it.each([
    ['no pace', { stitches: d(10), stitchesPerMinute: d(0) }, 'stitchesPerMinute'],
    ['no length', { stitchesPerCm: d(5), stitchesPerMinute: d(10) }, 'lengthMm'],
    ['no density', { lengthMm: d(10), stitchesPerMinute: d(10) }, 'stitchesPerCm'],
    ['stitches below nought', { stitches: d(-1), stitchesPerMinute: d(10) }, 'stitches'],
    [
      'a thread of no length',
      {
        lengthMm: d(10),
        stitchesPerCm: d(5),
        stitchesPerMinute: d(10),
        thread: { perSeamLength: d(4), lengthMm: d(0), changeMinutes: d(1) },
      },
      'thread.lengthMm',
    ],
  ])('refuses %s by its field', (_, seam, field) => {
    expect.assertions(1);
    try {
      handStitching(seam);
    } catch (trouble) {
      expect(trouble instanceof Invalid && trouble.fields.map((each) => each.field)).toEqual([field]);
    }
  });
});
