import { describe, expect, it } from 'vitest';
import {
  creditorReference,
  isCreditorReference,
  referenceInFours,
} from '../../../src/domain/papers/payment/creditor-reference.js';
import { ibanInFours, isIban, readIban } from '../../../src/domain/papers/payment/iban.js';
import { remainder97 } from '../../../src/domain/papers/payment/mod97.js';

/* Example account numbers of the SWIFT IBAN registry (ISO 13616); reference vectors of ISO 11649 as quoted in the design. */
const accounts = [
  'DE89370400440532013000',
  'GB82WEST12345698765432',
  'FR1420041010050500013M02606',
  'NL91ABNA0417164300',
  'BE68539007547034',
  'CH9300762011623852957',
  'NO9386011117947',
  'MT84MALT011000012345MTLCAST001S',
];

describe('account numbers, ISO 13616', () => {
  it.each(accounts)('%s holds', (account) => expect(isIban(account)).toBe(true));

  it.each(accounts)('%s with two neighbours changed over does not', (account) => {
    const signs = [...account];
    const at = signs.findIndex((sign, index) => index > 3 && sign !== signs[index + 1] && signs[index + 1]);
    [signs[at], signs[at + 1]] = [signs[at + 1] ?? '', signs[at] ?? ''];
    expect(isIban(signs.join(''))).toBe(false);
  });

  it.each(accounts)('%s with any one digit raised does not', (account) => {
    [...account].forEach((sign, index) => {
      if (!/\d/.test(sign)) return;
      const wrong = account.slice(0, index) + ((Number(sign) + 1) % 10) + account.slice(index + 1);
      expect(isIban(wrong), wrong).toBe(false);
    });
  });

  it('forgives blanks and small letters, prints in fours', () => {
    expect(readIban('gb82 west 1234 5698 7654 32')).toBe('GB82WEST12345698765432');
    expect(ibanInFours('GB82WEST12345698765432')).toBe('GB82 WEST 1234 5698 7654 32');
  });

  it.each(['', 'DE8937040044053201300', 'DE893704004405320130000', 'DE89', 'XX00', '𝟘'.repeat(20)])(
    'refuses “%s”',
    (text) => expect(() => readIban(text)).toThrow(/is not an IBAN/),
  );
});

describe('creditor references, ISO 11649', () => {
  it.each(['RF18539007547034', 'RF712348231', 'RF18 5390 0754 7034'])('%s holds', (reference) =>
    expect(isCreditorReference(reference)).toBe(true),
  );
  it.each(['RF19539007547034', 'RF18', '18539007547034', 'RF18539007547034539007547034'])(
    '%s does not',
    (reference) => expect(isCreditorReference(reference)).toBe(false),
  );
  it('makes RF332348236 of 2348236', () => expect(creditorReference('2348236')).toBe('RF332348236'));
  it('makes a reference that holds of any number of a paper', () => {
    for (const number of ['I-2026-001', 'Q/26/7', 'I-2026-00000000000999']) {
      expect(isCreditorReference(creditorReference(number))).toBe(true);
    }
    expect(referenceInFours('RF332348236')).toBe('RF33 2348 236');
  });
  it('refuses a number without letters and digits, or with too many', () => {
    expect(() => creditorReference('--')).toThrow();
    expect(() => creditorReference('1234567890123456789012')).toThrow();
  });
});

describe('remainder by 97, ISO 7064', () => {
  it('counts letters as two digits and never goes through a float', () => {
    expect(remainder97('A')).toBe(10);
    expect(remainder97('Z')).toBe(35);
    expect(remainder97('9'.repeat(60))).toBe(Number(BigInt('9'.repeat(60)) % 97n));
  });
});
