import type { DataSource } from 'typeorm';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { seriesBook } from '../../../src/storage/books/series-book.js';
import { openForWriting } from '../../../src/storage/connection/data-source.js';
import { IssuingTurn } from '../../../src/storage/issuing/issuing-turn.js';
import { foreseeNumber } from '../../../src/storage/issuing/next-number.js';
import { type KeptHome, kinds, odalys, openKeptHome } from '../kept-home.js';

const SERIES = { name: 'quote', pattern: 'Q-{year}-{000}' } as const;
const DAY = '2026-03-02';

describe.each(kinds)('the next number, on %s', (kind) => {
  let kept: KeptHome;
  let second: DataSource;
  beforeEach(async () => {
    kept = await openKeptHome(kind);
    second = await openForWriting(kept.home);
  });
  afterEach(async () => {
    await second.destroy();
    await kept.close();
  });
  const take = () => kept.unit.write(odalys(), (writing) => seriesBook.take(writing, 'quote/2026'));

  it('is the one behind the last', async () => {
    await take();
    const next = await foreseeNumber(kept.read, SERIES, DAY, async () => false);
    expect(next).toMatchObject({ key: 'quote/2026', number: 'Q-2026-002', isTaken: false });
    const third = await foreseeNumber(kept.read, { ...SERIES, ahead: 2 }, DAY, async () => false);
    expect(third.number).toBe('Q-2026-004');
  });

  it('is not called given when another paper took it between two looks', async () => {
    const out = new Set<string>();
    let looks = 0;
    const next = await foreseeNumber(kept.read, SERIES, DAY, async (number) => {
      looks += 1;
      if (looks === 1) {
        // Somebody else issues Q-2026-001 right here, and is seen to have.
        await take();
        out.add('Q-2026-001');
      }
      return out.has(number);
    });
    expect(next).toMatchObject({ number: 'Q-2026-002', isTaken: false });
  });

  it('is called given when the series stands still and a paper has it all the same', async () => {
    const next = await foreseeNumber(kept.read, SERIES, DAY, async () => true);
    expect(next).toMatchObject({ number: 'Q-2026-001', isTaken: true });
  });

  it('begins anew at the turn of the year', async () => {
    await take();
    const next = await foreseeNumber(kept.read, SERIES, '2027-01-01', async () => false);
    expect(next).toMatchObject({ key: 'quote/2027', number: 'Q-2027-001' });
  });

  it('is printed in one turn after the other, whichever server asks, and a turn that fails ends all the same', async () => {
    const turns = kind === 'postgres' ? [new IssuingTurn(kept.writing), new IssuingTurn(second)] : [];
    const one = new IssuingTurn(kept.writing);
    let inside = 0;
    let most = 0;
    const done = await Promise.allSettled(
      Array.from({ length: 12 }, (_, place) =>
        (turns[place % 2] ?? one).run('quote', async () => {
          inside += 1;
          most = Math.max(most, inside);
          await new Promise((resolve) => setTimeout(resolve, 5));
          inside -= 1;
          if (place % 3 === 0) throw new Error('The browser died.');
          return place;
        }),
      ),
    );
    expect(most).toBe(1);
    expect(done.filter(({ status }) => status === 'rejected')).toHaveLength(4);
    expect(await one.run('quote', async () => 'still going')).toBe('still going');
  });
});
