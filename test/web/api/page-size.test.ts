import { expect, it } from 'vitest';
import { pageSize } from '../../../src/web/api/page-size.js';

it.each([
  ['10', 10],
  ['2.5', 2],
  ['0.3', 20],
  ['0', 20],
  ['-4', 1],
  ['100000', 100],
  ['', 20],
  ['many', 20],
  ['NaN', 20],
  ['1e9', 100],
])('a page of %j holds %i', (asked, size) => expect(pageSize(asked, 20)).toBe(size));

it('may hold more where a list is short of words', () => expect(pageSize('400', 100, 500)).toBe(400));
