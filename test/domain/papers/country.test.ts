import { describe, expect, it } from 'vitest';
import { countryCode } from '../../../src/domain/papers/model/country.js';

/* Pairs of name and code are those of ISO 3166-1, from memory. */
describe('the two letters of a country in an invoice’s data', () => {
  it('are found by its name in several tongues, however it is written', () => {
    expect(
      ['Ireland', ' ireland ', 'IRLAND', 'Irlande', 'ie', 'IE', 'United Kingdom', 'uk', 'Österreich'].map(
        countryCode,
      ),
    ).toEqual(['IE', 'IE', 'IE', 'IE', 'IE', 'IE', 'GB', 'GB', 'AT']);
  });

  it('are those in force where a withdrawn code has the same name', () => {
    expect(['Germany', 'Serbia', 'Russia', 'Vietnam', 'Curaçao'].map(countryCode)).toEqual([
      'DE',
      'RS',
      'RU',
      'VN',
      'CW',
    ]);
  });

  it('leave what is no country of this world as it was typed', () => {
    expect(['Quillshire', ''].map(countryCode)).toEqual(['Quillshire', '']);
  });
});
