import { type Fraction, fraction } from './fraction.js';

/** The units a body is measured in. */
export type LengthUnit = 'mm' | 'cm' | 'm' | 'in' | 'ft' | 'yd';

/** The unit a studio works in. */
export type PreferredUnit = 'cm' | 'in';

/**
 * Millimetres in one of each unit, exact.
 *
 * @see International yard and pound agreement, 1959: 1 yd = 0.9144 m, so 1 ft = 304.8 mm and 1 in = 25.4 mm
 * @see test/reference/measuring/units.test.ts
 */
export const MILLIMETRES: Readonly<Record<LengthUnit, Fraction>> = {
  mm: fraction(1n),
  cm: fraction(10n),
  m: fraction(1000n),
  in: fraction(254n, 10n),
  ft: fraction(3048n, 10n),
  yd: fraction(9144n, 10n),
};

/** The units' names for a sentence. */
export const UNIT_WORDS: Readonly<Record<LengthUnit, string>> = {
  mm: 'millimetres',
  cm: 'centimetres',
  m: 'metres',
  in: 'inches',
  ft: 'feet',
  yd: 'yards',
};

/** Every way a unit may be typed, after folding. */
const TYPED_AS: Readonly<Record<LengthUnit, string>> = {
  mm: 'mm millimetre millimetres millimeter millimeters',
  cm: 'cm cms centimetre centimetres centimeter centimeters',
  m: 'm metre metres meter meters',
  in: 'in ins inch inches "',
  ft: "ft foot feet '",
  yd: 'yd yds yard yards',
};

const BY_WORD = new Map<string, LengthUnit>(
  (Object.keys(TYPED_AS) as LengthUnit[]).flatMap((unit) =>
    TYPED_AS[unit].split(' ').map((word): [string, LengthUnit] => [word, unit]),
  ),
);

/** The unit a word or sign means (`inches`, `"`, `cm`), or undefined. */
export const unitTyped = (word: string): LengthUnit | undefined => BY_WORD.get(word);

/** Is this a metric unit? */
export const isMetric = (unit: LengthUnit): boolean => unit === 'mm' || unit === 'cm' || unit === 'm';
