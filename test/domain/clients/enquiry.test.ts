import { describe, expect, it } from 'vitest';
import { inTurn, isOpenEnquiry, refusalText } from '../../../src/domain/clients/enquiry.js';

const one = (id: string, askedOn: string, nextOn?: string) => ({ id, askedOn, nextOn });

describe('enquiries', () => {
  it('stand in their turn, a next step that has come first', () => {
    const all = [
      one('c', '2026-02-20'),
      one('a', '2026-01-10'),
      one('d', '2026-02-25', '2026-03-02'),
      one('e', '2026-02-26', '2026-03-01'),
      one('b', '2026-01-10', '2026-03-03'),
    ];
    expect(inTurn(all, '2026-03-02').map(({ id }) => id)).toEqual(['e', 'd', 'a', 'b', 'c']);
    expect(all[0]?.id).toBe('c');
  });

  it('are open while somebody waits', () => {
    expect(isOpenEnquiry({ state: 'waiting' }) && isOpenEnquiry({ state: 'invited' })).toBe(true);
    expect(isOpenEnquiry({ state: 'declined' }) || isOpenEnquiry({ state: 'commissioned' })).toBe(false);
  });

  it('are declined by name, signed once', () => {
    const words = refusalText(
      { name: 'Sabeline Thrushwood', what: 'a riding coat' },
      { maker: 'Odalys Fenwright', studio: 'Odalys Fenwright' },
    );
    expect(words).toMatch(/^Dear Sabeline Thrushwood,\n/);
    expect(words).toContain('asking us about a riding coat');
    expect(words.match(/Odalys Fenwright/g)).toHaveLength(1);
  });
});
