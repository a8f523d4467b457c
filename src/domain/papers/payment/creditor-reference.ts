import { Invalid } from '../../kernel/errors.js';
import { checkDigits97, remainder97 } from './mod97.js';

/** Without blanks and in capitals, as it is kept. */
export const plainReference = (text: string): string => text.replace(/[\s\u00a0]/g, '').toUpperCase();

/**
 * Is this a structured creditor reference whose check digits hold?
 *
 * @see ISO 11649; test/reference/papers/check-digits.test.ts
 */
export const isCreditorReference = (text: string): boolean => {
  const reference = plainReference(text);
  return (
    /^RF\d{2}[A-Z0-9]{1,21}$/.test(reference) && remainder97(reference.slice(4) + reference.slice(0, 4)) === 1
  );
};

/**
 * The creditor reference for a paper's number: `RF`, two check digits, and the number's letters and digits.
 *
 * @param number a paper's number; everything but letters and digits falls out, at most 21 must be left
 * @returns for 2348236: `RF332348236`
 * @throws Invalid when nothing or more than 21 characters are left
 * @see ISO 11649
 */
export const creditorReference = (number: string): string => {
  const rest = number.toUpperCase().replace(/[^A-Z0-9]/g, '');
  if (rest.length < 1 || rest.length > 21)
    throw new Invalid('A creditor reference holds 1 to 21 letters and digits.');
  return `RF${checkDigits97(rest, 'RF')}${rest}`;
};

/** In fours, as it is printed. */
export const referenceInFours = (reference: string): string =>
  plainReference(reference).replace(/(.{4})(?=.)/g, '$1 ');
