import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { clientBook } from '../../src/storage/books/client-book.js';
import { seriesBook } from '../../src/storage/books/series-book.js';
import { undoAct } from '../../src/storage/history/undo.js';
import { clientWords, type KeptHome, kinds, odalys, openKeptHome } from './kept-home.js';

describe.each(kinds)('books, on %s', (kind) => {
  let kept: KeptHome;
  beforeEach(async () => {
    kept = await openKeptHome(kind);
  });
  afterEach(() => kept.close());

  const add = (name: string) =>
    kept.unit.write(odalys(), (writing) => clientBook.add(writing, clientWords(name)));

  it('a series gives consecutive numbers, of thirty at the same moment too', async () => {
    const taken = await Promise.all(
      Array.from({ length: 30 }, () =>
        kept.unit.write(odalys(), (writing) => seriesBook.take(writing, 'quote')),
      ),
    );
    expect(taken.map(({ value }) => value).toSorted((a, b) => a - b)).toEqual(
      Array.from({ length: 30 }, (_, place) => place + 1),
    );
    expect(await seriesBook.last(kept.read, 'quote')).toBe(30);
    expect(await seriesBook.last(kept.read, 'another')).toBe(0);
  });

  describe('the client book', () => {
    it('finds by every word, without accents or case, in other scripts, and takes % and _ as letters', async () => {
      for (const name of [
        'Zoë Ångström',
        'Corvin Haddlestone',
        '山田 花子',
        'ليلى حداد',
        '100% wool_lover',
        '100x woolxlover',
      ])
        await add(name);
      const found = async (asked: string) =>
        (await clientBook.find(kept.read, asked)).items.map(({ name }) => name);
      expect(await found('angs ZOE')).toEqual(['Zoë Ångström']);
      expect(await found('花子')).toEqual(['山田 花子']);
      expect(await found('حداد')).toEqual(['ليلى حداد']);
      expect(await found('100% wool_')).toEqual(['100% wool_lover']);
      expect(await found('c-0002')).toEqual(['Corvin Haddlestone']);
      expect(await found('zoe corvin')).toEqual([]);
    });

    it('is paged by key without losing or doubling anyone, equal names included', async () => {
      for (let place = 0; place < 25; place += 1) await add(place % 3 === 0 ? 'Same Name' : `Name ${place}`);
      const ids: string[] = [];
      for (let after: string | undefined = ''; after !== undefined; ) {
        const page = await clientBook.find(kept.read, '', 7, after);
        ids.push(...page.items.map(({ id }) => id));
        after = page.next;
      }
      expect(ids).toHaveLength(25);
      expect(new Set(ids).size).toBe(25);
    });

    it('gives every word back as it was written', async () => {
      const words = {
        ...clientWords('"; DROP TABLE client; --', { notes: 'x'.repeat(4000) }),
        isChild: true,
        paperLanguage: 'fr' as const,
      };
      const { value } = await kept.unit.write(odalys(), (writing) => clientBook.add(writing, words));
      expect(await clientBook.one(kept.read, value.id)).toEqual({
        ...words,
        id: value.id,
        code: 'C-0001',
        version: 1,
      });
    });

    it('keeps the language of a client’s papers through corrections, undoing and lists', async () => {
      const languageOf = async (id: string) => (await clientBook.one(kept.read, id)).paperLanguage;
      const { value } = await add('Corvin Haddlestone');
      expect(value.paperLanguage).toBe('');
      const correct = (paperLanguage?: '' | 'fr' | 'de') =>
        kept.unit.write(odalys(), (writing) =>
          clientBook.correct(writing, value.id, {
            ...clientWords('Corvin Haddlestone'),
            ...(paperLanguage === undefined ? {} : { paperLanguage }),
          }),
        );
      expect((await correct('de')).value.paperLanguage).toBe('de');
      const { act = '' } = await correct('fr');
      expect(await languageOf(value.id)).toBe('fr');
      await undoAct(kept.unit, odalys(), act);
      expect(await languageOf(value.id)).toBe('de');
      await correct();
      expect(await languageOf(value.id)).toBe('de');
      await kept.unit.write(odalys(), (writing) =>
        clientBook.addAll(writing, [
          clientWords('Corvin Other'),
          { ...clientWords('Corvin Third'), paperLanguage: 'fr' },
        ]),
      );
      const { items } = await clientBook.find(kept.read, 'corvin');
      expect(items.map(({ paperLanguage }) => paperLanguage)).toEqual(['de', '', 'fr']);
    });
  });
});
