import { Invalid } from '../../kernel/errors.js';
import { remainder97 } from './mod97.js';

/** Lengths by country for the places a workroom is likely to be paid from; any other is held to 15 to 34. */
const LENGTHS: Readonly<Record<string, number>> = {
  AT: 20,
  BE: 16,
  BG: 22,
  CH: 21,
  CY: 28,
  CZ: 24,
  DE: 22,
  DK: 18,
  EE: 20,
  ES: 24,
  FI: 18,
  FR: 27,
  GB: 22,
  GR: 27,
  HR: 21,
  HU: 28,
  IE: 22,
  IS: 26,
  IT: 27,
  LI: 21,
  LT: 20,
  LU: 20,
  LV: 21,
  MC: 27,
  MT: 31,
  NL: 18,
  NO: 15,
  PL: 28,
  PT: 25,
  RO: 24,
  SE: 24,
  SI: 19,
  SK: 24,
  SM: 27,
};

/** Without blanks and in capitals, as it is kept. */
export const plainIban = (text: string): string => text.replace(/[\s\u00a0]/g, '').toUpperCase();

/** In fours, as it is printed. */
export const ibanInFours = (iban: string): string => plainIban(iban).replace(/(.{4})(?=.)/g, '$1 ');

/**
 * Is this an account number whose check digits hold? Blanks and small letters are forgiven.
 *
 * @see ISO 13616-1, check digits by ISO 7064 MOD 97-10; lengths from the SWIFT IBAN registry (from memory);
 * test/reference/papers/check-digits.test.ts
 */
export const isIban = (text: string): boolean => {
  const iban = plainIban(text);
  if (!/^[A-Z]{2}\d{2}[A-Z0-9]{11,30}$/.test(iban)) return false;
  const length = LENGTHS[iban.slice(0, 2)];
  if (length !== undefined && iban.length !== length) return false;
  return remainder97(iban.slice(4) + iban.slice(0, 4)) === 1;
};

/**
 * The account number as it is kept: no blanks, capitals.
 *
 * @throws Invalid when the check digits or the length do not hold
 */
export const readIban = (text: string): string => {
  if (!isIban(text))
    throw new Invalid(`“${text.slice(0, 42)}” is not an IBAN: its check digits or its length do not hold.`);
  return plainIban(text);
};
