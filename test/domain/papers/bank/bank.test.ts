import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Money } from '../../../../src/domain/kernel/money.js';
import { decimalSignIn, readBankAmount } from '../../../../src/domain/papers/bank/bank-amounts.js';
import {
  columnsTrouble,
  likelyColumns,
  mannerOf,
  readBankLines,
} from '../../../../src/domain/papers/bank/bank-columns.js';
import { dateOrderIn, readBankDate } from '../../../../src/domain/papers/bank/bank-dates.js';
import { type BankLine, fingerprintsOf } from '../../../../src/domain/papers/bank/bank-line.js';

const eur = (minor: number): Money => Money.ofMinor(minor, 'EUR');

describe('amounts of a statement', () => {
  it.each([
    ['1,234.50', '.', '1234.50'],
    ['1.234,50', ',', '1234.50'],
    ['1 234,50', ',', '1234.50'],
    ["1'234.50", '.', '1234.50'],
    ['1.234,50-', ',', '-1234.50'],
    ['(12.00)', '.', '-12.00'],
    ['− 12.00', '.', '-12.00'],
    ['+12', '.', '12.00'],
    ["'-12.00", '.', '-12.00'],
    ['EUR 7,5', ',', '7.50'],
    ['7.50 €', '.', '7.50'],
    ['1,23,456.00', '.', '123456.00'],
    ['12.345', '.', undefined],
    ['12.34.56', '.', undefined],
    ['=1+1', '.', undefined],
    ['--5', '.', undefined],
    ['', '.', undefined],
    ['9'.repeat(13), '.', undefined],
  ] as const)('%s with %s is %s', (text, sign, read) => {
    expect(readBankAmount(text, sign, 'EUR')?.toString()).toBe(read);
  });

  it('knows the sign before the decimals by what a column shows, and asks where it shows nothing', () => {
    expect(decimalSignIn(['1.234', '5,50'])).toBe(',');
    expect(decimalSignIn(['1.234', '1.234.567'])).toBe(',');
    expect(decimalSignIn(['1,234', '5.5'])).toBe('.');
    expect(decimalSignIn(['1234.567'])).toBe('.');
    expect(decimalSignIn(['12', '13'])).toBe('.');
    expect(decimalSignIn(['1.234'])).toBeUndefined();
  });

  it('reads back whatever it is written as', () => {
    fc.assert(
      fc.property(fc.integer({ min: -99_999_999_999, max: 99_999_999_999 }), (minor) => {
        for (const [locale, sign] of [
          ['en', '.'],
          ['de', ','],
          ['fr', ','],
          ['de-CH', '.'],
        ] as const) {
          const text = (minor / 100).toLocaleString(locale, { minimumFractionDigits: 2 });
          const read = readBankAmount(text.replace('’', "'"), sign, 'EUR');
          expect([text, read?.minor]).toEqual([text, minor === 0 ? 0 : minor]);
        }
      }),
    );
  });
});

describe('dates of a statement', () => {
  it.each([
    ['2026-03-02', 'day-first', '2026-03-02'],
    ['20260302', 'month-first', '2026-03-02'],
    ['02/03/2026', 'day-first', '2026-03-02'],
    ['02/03/2026', 'month-first', '2026-02-03'],
    ['2.3.26', 'day-first', '2026-03-02'],
    ['2026-03-02T10:11:12', 'day-first', '2026-03-02'],
    ['02 Mar 2026', 'day-first', '2026-03-02'],
    ['30/02/2026', 'day-first', undefined],
    ['Balance', 'day-first', undefined],
  ] as const)('%s read %s is %s', (text, order, read) => {
    expect(readBankDate(text, order)).toBe(read);
  });

  it('are asked about only where all could be read both ways', () => {
    expect(dateOrderIn(['03/04/2026', '13/04/2026'])).toBe('day-first');
    expect(dateOrderIn(['03/04/2026', '04/13/2026'])).toBe('month-first');
    expect(dateOrderIn(['03/04/2026'])).toBeUndefined();
    expect(dateOrderIn(['03.04.2026'])).toBe('day-first');
    expect(dateOrderIn(['2026-03-04'])).toBe('day-first');
  });
});

describe('the rows of a statement', () => {
  const read = (heads: string[], ...rows: string[][]) => {
    const columns = likelyColumns(heads);
    const list = rows.map((cells, place) => ({ line: place + 2, cells }));
    const manner = mannerOf(list, { columns });
    return readBankLines(
      list,
      { columns, dateOrder: manner.dateOrder ?? 'day-first', decimalSign: manner.decimalSign ?? '.' },
      'EUR',
    );
  };

  it('come as columns for in and out, or with a sign, or with a letter', () => {
    const inOut = read(
      ['Date', 'Details', 'Debit', 'Credit', 'Balance'],
      ['13/03/2026', 'rent', '400.00', '', '1'],
      ['14/03/2026', 'F-2026-001', '', '31.50', '2'],
    );
    expect(inOut.lines.map(({ amount }) => amount.toString())).toEqual(['-400.00', '31.50']);
    const letter = read(
      ['Buchungstag', 'Betrag', 'S/H', 'Auftraggeber', 'Verwendungszweck'],
      ['02.03.2026', '1.400,00', 'S', 'Landlady', 'Miete'],
      ['03.03.2026', '31,50', 'H', 'Corvin Haddlestone', 'F 2026 001'],
    );
    expect(letter.lines.map(({ amount, payer }) => [amount.toString(), payer])).toEqual([
      ['-1400.00', 'Landlady'],
      ['31.50', 'Corvin Haddlestone'],
    ]);
  });

  it('are a line or a trouble, and nothing between', () => {
    const { lines, troubles } = read(
      ['Date', 'Amount', 'Currency', 'Description'],
      ['2026-03-02', '5.00', 'EUR', '=HYPERLINK("http://example.org")'],
      ['2026-03-02', '5.00', 'USD', ''],
      ['2026-02-30', '5.00', 'EUR', ''],
      ['', 'closing', 'EUR', ''],
      ['2026-03-02', 'five', 'EUR', ''],
      ['2026-03-02', '0.00', 'EUR', ''],
      ['2026-03-02'],
    );
    expect(lines.map(({ words }) => words)).toEqual(['=HYPERLINK("http://example.org")']);
    expect(troubles).toEqual([
      { line: 3, text: 'It is in USD, and the books are in EUR.' },
      { line: 4, text: '“2026-02-30” is not a date.' },
      { line: 5, text: 'It has no date.' },
      { line: 6, text: '“five” is not an amount in EUR.' },
      { line: 7, text: 'Its amount is nought.' },
      { line: 8, text: 'It has no amount.' },
    ]);
  });

  it('must have a date and an amount, each once', () => {
    expect(columnsTrouble(['date', 'amount', 'words', 'words'])).toBeUndefined();
    expect(columnsTrouble(['amount'])).toContain('date');
    expect(columnsTrouble(['date'])).toContain('amount');
    expect(columnsTrouble(['date', 'date', 'amount'])).toContain('Two columns');
    expect(columnsTrouble(['date', 'amount', 'in'])).toContain('either one column');
    expect(columnsTrouble(['date', 'out'])).toContain('what came in');
  });

  it('keep their marks however often they are brought in, and two alike in one file are two', () => {
    const line: BankLine = { place: 1, on: '2026-03-02', amount: eur(500), payer: 'A B', words: 'x' };
    const first = fingerprintsOf([line, line, { ...line, amount: eur(501) }]);
    expect(new Set(first).size).toBe(3);
    const again = fingerprintsOf([{ ...line, place: 9, words: ' X ' }, line]);
    expect(again).toEqual(first.slice(0, 2));
  });
});
