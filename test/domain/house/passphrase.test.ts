import { describe, expect, it } from 'vitest';
import { isEasilyGuessed } from '../../../src/domain/house/passphrase.js';

describe('a passphrase', () => {
  it.each([
    'thimble wax needle chalk',
    'four other plain words',
    'Tr0ub4dor and the 3rd bolt',
    'наперсток воск игла мел',
    '指貫 蝋 針 白墨 裁縫 糸巻',
    'bodkin-beeswax-selvedge-quire',
  ])('%s is taken', (passphrase) => expect(isEasilyGuessed(passphrase, ['Odalys Fenwright'])).toBe(false));

  it.each([
    'aaaaaaaaaaaaaaaa',
    'abababababab',
    '123456789012',
    'abcdefghijkl',
    'qwertyuiop12',
    '1qaz2wsx3edc',
    'lkjhgfdsa987',
    'password1234',
    'Password!2026',
    'passwordpassword',
    'iloveyou12345',
    'bastings2026!!',
    'odalys.fenwright',
    'OdalysFenwright1',
    'letmeinletmein',
    'sewing studio 1',
  ])('%s is refused', (passphrase) => expect(isEasilyGuessed(passphrase, ['Odalys Fenwright'])).toBe(true));
});
