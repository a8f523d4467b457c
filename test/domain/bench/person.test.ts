import { expect, it } from 'vitest';
import { nameOnCard } from '../../../src/domain/bench/person.js';

it('means the hour of the same name, or the first on the card', () => {
  const names = ['Odalys Fenwright', 'Wilmot Larkspur'];
  expect(nameOnCard(' wilmot larkspur', names)).toBe('Wilmot Larkspur');
  expect(nameOnCard('Tamsin Orrery', names)).toBe('Odalys Fenwright');
  expect(nameOnCard('Tamsin Orrery', [])).toBeUndefined();
});
