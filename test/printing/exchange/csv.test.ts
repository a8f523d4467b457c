import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { type CsvCell, type CsvColumn, csvOf } from '../../../src/printing/exchange/csv.js';

/* RFC 4180 (IETF, 2005). Read back by csv-parse. */

const columns = (count: number): CsvColumn<readonly CsvCell[]>[] =>
  Array.from({ length: count }, (_, at) => ({ heading: `H${at}`, cell: (row) => row[at] }));

const table = (cells: readonly CsvCell[], manner = {}): string =>
  csvOf(columns(cells.length), [cells], { byteOrderMark: false, ...manner });

const readBack = (text: string, delimiter = ','): string[][] =>
  parse(text, { delimiter, bom: true, record_delimiter: '\r\n' });

describe('a table for the bookkeeper', () => {
  it('has a heading, records ending CR LF, and a byte order mark when asked', () => {
    const rows = [
      { number: 'I-2026-007', total: Money.parse('1822.96', 'EUR'), client: 'Haddlestone, Corvin' },
    ];
    const text = csvOf(
      [
        { heading: 'Number', cell: (row) => row.number },
        { heading: 'Client', cell: (row) => row.client },
        { heading: 'Total', cell: (row) => row.total },
        { heading: 'Note', cell: () => undefined },
      ],
      rows,
    );
    expect(text).toBe('\ufeffNumber,Client,Total,Note\r\nI-2026-007,"Haddlestone, Corvin",1822.96,\r\n');
    expect(Buffer.from(text, 'utf8').subarray(0, 3).toString('hex')).toBe('efbbbf');
    expect(csvOf(columns(1), [], { byteOrderMark: false })).toBe('H0\r\n');
  });

  it.each([
    '=1+1',
    '+353 1 555',
    '-2+3',
    '@SUM(A1)',
    '\t=1',
    '\r=1',
    '\n=1',
    ' =1',
    '\u00a0=1',
    '＝1',
    '－1',
    '-',
    '-1-1',
  ])('makes %j harmless', (text) => {
    expect(readBack(table([text]))[1]).toEqual([`'${text}`]);
  });

  it('makes a heading harmless as well', () => {
    expect(csvOf([{ heading: '=1', cell: () => '' }], [], { byteOrderMark: false })).toBe('"\'=1"\r\n');
  });

  it('keeps genuine negative numbers as numbers', () => {
    const cells = [
      Money.parse('-12.50', 'EUR'),
      new Decimal('-0.125'),
      '-7',
      '-7.25',
      Money.parse('-300', 'JPY'),
    ];
    expect(table(cells).split('\r\n')[1]).toBe('-12.50,-0.125,-7,-7.25,-300');
  });

  it('writes decimal commas and semicolons where the reader wants them', () => {
    const cells = [Money.parse('-1234.50', 'EUR'), new Decimal('0.5'), 'a;b'];
    expect(table(cells, { separator: ';', decimalSign: ',' }).split('\r\n')[1]).toBe(
      '"-1234,50";"0,5";"a;b"',
    );
    expect(readBack(table(cells, { separator: ';', decimalSign: ',' }), ';')[1]).toEqual([
      '-1234,50',
      '0,5',
      'a;b',
    ]);
    expect(readBack(table(cells, { decimalSign: ',' }))[1]).toEqual(['-1234,50', '0,5', 'a;b']);
  });

  it('is read back cell by cell, whatever is typed', () => {
    const typed = fc.string({
      unit: fc.constantFrom('a', 'é', '漢', '🧵', '"', ',', ';', '\t', '\n', '\r', ' ', '=', '-', '1', "'"),
      maxLength: 20,
    });
    fc.assert(
      fc.property(
        fc.array(typed, { minLength: 2, maxLength: 5 }),
        fc.constantFrom(',' as const, ';' as const, '\t' as const),
        (cells, separator) => {
          const [, row] = readBack(table(cells, { separator }), separator);
          expect(row).toHaveLength(cells.length);
          row?.forEach((cell, at) => {
            expect([cells[at], `'${cells[at]}`]).toContain(cell);
            if (!/^-?\d+([.,]\d+)?$/.test(cell)) expect(cell).not.toMatch(/^\s*[=+\-@]|^[\t\r\n]/);
          });
        },
      ),
      { numRuns: 300 },
    );
  });
});
