import { expect, it } from 'vitest';
import { exactText } from '../../../src/domain/measuring/fraction.js';
import { readLength } from '../../../src/domain/measuring/length-entry.js';
import { MILLIMETRES } from '../../../src/domain/measuring/length-unit.js';

// International yard and pound agreement, 1959: 1 yard = 0.9144 m.
it('holds the international yard, foot and inch exactly', () => {
  expect(exactText(MILLIMETRES.yd)).toBe('914.4');
  expect(exactText(MILLIMETRES.ft)).toBe('304.8');
  expect(exactText(MILLIMETRES.in)).toBe('25.4');
});

// The same definition, divided: a sixteenth of an inch is 1.5875 mm exactly.
it('reads a sixteenth of an inch as 1.5875 mm', () => {
  const reading = readLength('1/16', { preferred: 'in' });
  expect(reading.kind === 'ok' && reading.value.mm).toBe('1.5875');
});
