import { describe, expect, it } from 'vitest';
import { srgbProfile } from '../../../../src/printing/exchange/pdf/srgb-profile.js';

/* ICC.1:2004-10: header, tag table, and the white that the three primaries must add up to. */

const bytes = Buffer.from(srgbProfile());

const tag = (name: string): Buffer => {
  const count = bytes.readUInt32BE(128);
  for (let at = 132; at < 132 + count * 12; at += 12) {
    if (bytes.toString('latin1', at, at + 4) !== name) continue;
    const start = bytes.readUInt32BE(at + 4);
    expect(start % 4).toBe(0);
    return bytes.subarray(start, start + bytes.readUInt32BE(at + 8));
  }
  throw new Error(`There is no ${name}`);
};

const xyz = (name: string): number[] => [8, 12, 16].map((at) => tag(name).readInt32BE(at) / 65_536);

describe('the colour profile', () => {
  it('says its own size, its kind and the D50 white', () => {
    expect(bytes.readUInt32BE(0)).toBe(bytes.length);
    expect(bytes.toString('latin1', 12, 24)).toBe('mntrRGB XYZ ');
    expect(bytes.toString('latin1', 36, 40)).toBe('acsp');
    expect(xyz('wtpt').map((part) => part.toFixed(4))).toEqual(['0.9642', '1.0000', '0.8249']);
  });

  it('has primaries that add up to white', () => {
    const sum = [0, 1, 2].map((part) =>
      ['rXYZ', 'gXYZ', 'bXYZ'].reduce((all, name) => all + xyz(name)[part]!, 0),
    );
    for (const [index, part] of sum.entries())
      expect(Math.abs(part - xyz('wtpt')[index]!)).toBeLessThan(0.0002);
  });

  it('has the curve of IEC 61966-2-1', () => {
    const [g, a, b, c, d] = [12, 16, 20, 24, 28].map((at) => tag('gTRC').readInt32BE(at) / 65_536) as [
      number,
      number,
      number,
      number,
      number,
    ];
    expect((a + b) ** g).toBeCloseTo(1, 4);
    expect((a * d + b) ** g).toBeCloseTo(c * d, 4);
    expect(c).toBeCloseTo(1 / 12.92, 4);
  });
});
