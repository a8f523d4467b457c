/**
 * The remainder of a numeral divided by 97, digit by digit, letters counting 10 (A) to 35 (Z); never through a float.
 *
 * @param text digits and capital letters only
 * @returns 0 to 96
 * @see ISO/IEC 7064:2003, MOD 97-10
 */
export const remainder97 = (text: string): number => {
  let remainder = 0;
  for (const sign of text) {
    const digits = /[A-Z]/.test(sign) ? String(sign.charCodeAt(0) - 55) : sign;
    for (const digit of digits) remainder = (remainder * 10 + Number(digit)) % 97;
  }
  return remainder;
};

/**
 * The two check digits that make `rest` + `head` + digits leave the remainder 1.
 *
 * @param rest what the digits stand before
 * @param head the letters they stand after, such as `RF` or a country code
 * @returns two digits, `02` to `98`
 * @see ISO/IEC 7064:2003, MOD 97-10; ISO 11649; ISO 13616-1
 */
export const checkDigits97 = (rest: string, head: string): string =>
  String(98 - remainder97(`${rest}${head}00`)).padStart(2, '0');
