import { expect, it } from 'vitest';
import { isBic, readBic } from '../../../../src/domain/papers/payment/bic.js';

// ISO 9362: 8 or 11 signs, the fifth and sixth the country. The codes are invented.
it.each(['QLMRIE2D', 'qlmrie2d', 'QLMR IE 2D XXX', '12AB IE2D'])(
  'takes “%s” for the shape of a BIC',
  (text) => {
    expect(isBic(text)).toBe(true);
    expect(readBic(text)).toMatch(/^[A-Z0-9]{8}([A-Z0-9]{3})?$/);
  },
);

it.each(['', 'QLMRIE2', 'QLMRIE2DXX', 'QLMR1E2D', 'QLMRIE2DXXXX', 'QLMRÏE2D', '<b>RIE2D'])(
  'refuses “%s”',
  (text) => {
    expect(isBic(text)).toBe(false);
    expect(() => readBic(text)).toThrow('is not a BIC');
  },
);
