import { Invalid } from '../../kernel/errors.js';

/** Without blanks and in capitals, as it is kept. */
export const plainBic = (text: string): string => text.replace(/[\s\u00a0]/g, '').toUpperCase();

/**
 * Has this the shape of a bank's code: four signs for the bank, two letters for the country, two for the place, and three
 * more for a branch or none? It says nothing about whether such a bank exists.
 *
 * @see ISO 9362 (the shape from memory); test/domain/papers/payment/bic.test.ts
 */
export const isBic = (text: string): boolean =>
  /^[A-Z0-9]{4}[A-Z]{2}[A-Z0-9]{2}([A-Z0-9]{3})?$/.test(plainBic(text));

/**
 * The bank's code as it is kept: no blanks, capitals.
 *
 * @throws Invalid when it has another shape
 */
export const readBic = (text: string): string => {
  if (!isBic(text))
    throw new Invalid(
      `“${text.slice(0, 20)}” is not a BIC: it has 8 or 11 signs, the fifth and sixth are the country.`,
    );
  return plainBic(text);
};
