import { expect, it } from 'vitest';
import { readReckoning } from '../../../src/domain/reckoning/frozen-reckoning.js';

it('reads none out of a closing without figures, and says so where a document is broken', () => {
  expect(readReckoning('')).toBeUndefined();
  expect(readReckoning('{"lesson":1}')).toBeUndefined();
  expect(() => readReckoning('{"lesson":')).toThrow('cannot be read');
});
