import fc from 'fast-check';
import { expect, it } from 'vitest';
import { ownPath } from '../../src/web/own-path.js';

it('leads nowhere but to this server, however it is written', () => {
  const strokes = fc.string({ unit: fc.constantFrom('/', '\\', '.', '\t', '\n', '@', ':', 'a', '?', '#') });
  fc.assert(
    fc.property(strokes, (text) => {
      const there = new URL(ownPath(text), 'https://studio.example');
      expect(there.origin).toBe('https://studio.example');
    }),
    { numRuns: 2000 },
  );
});

it('keeps a path with its question and its part', () => {
  expect(ownPath('/clients?q=a b#x')).toBe('/clients?q=a%20b#x');
  expect(ownPath(undefined, '/clients')).toBe('/clients');
});
