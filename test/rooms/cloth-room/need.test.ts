import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { pressed, wordsOf } from './a-shelf.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const ask = async (path: string, fields: Record<string, string>) => {
  const answer = await studio.get(`/cloth-room/${path}?${new URLSearchParams(fields)}`);
  return { status: answer.status, words: wordsOf(answer.text.replace(/[\s\S]*<main/, '<main')) };
};
const known = { length: '3.20 m', width: '150 cm', otherWidth: '140 cm' };

describe('how much cloth', () => {
  it('WS-15: 3.20 m at 150 cm by area is 3.43 m at 140 cm and 8.59 m at 22 in, and only the lay decides (constructed)', async () => {
    const wide = await ask('need', known);
    expect(wide.words).toContain('Buy 3.43 m by area');
    expect(wide.words).toContain('Only the lay decides');
    const narrow = await ask('need', { ...known, otherWidth: '22 in' });
    expect(narrow.words).toContain('Buy 8.59 m by area');
    expect(narrow.words).toContain('The chart knows widths from 35 to 66 inches');
  });

  it('WS-14: 2.90 m with 10 % waste of net are 3.19 m, of gross 3.22 m, and says which (constructed)', async () => {
    const same = { length: '2.90', width: '150 cm', otherWidth: '150 cm', waste: '10' };
    const net = await ask('need', { ...same, wasteOf: 'net' });
    expect(net.words).toMatch(/With waste on what is used 3\.19 m/);
    const gross = await ask('need', { ...same, wasteOf: 'gross' });
    expect(gross.words).toMatch(/With waste in the whole length 3\.22 m/);
  });

  it('FB-02 by the chart: 1 3/8 yd at 54 in are 2 yd at 36 in, and a quarter for so large a difference', async () => {
    const { words } = await ask('need', { length: '1 3/8 yd', width: '54 in', otherWidth: '36 in' });
    // 2 1/4 yd in the studio's metres.
    expect(words).toContain('Buy 2.06 m by the chart (from 52–54″ to 35–36″, with the quarter yard');
  });

  it('adds repeats and shrinkage', async () => {
    const { words } = await ask('need', {
      ...known,
      otherWidth: '150 cm',
      repeat: '10 cm',
      stacked: '3',
      shrinkage: '4',
    });
    expect(words).toMatch(/Pattern repeat 0\.3 m/);
    expect(words).toMatch(/Before it shrinks 3\.65 m/);
  });

  it.each([
    [{ length: '' }, 'How much of the known cloth?'],
    [{ width: '' }, 'How wide is the known cloth?'],
    [{ shrinkage: '100' }, 'must stay below 100'],
    [{ stacked: '-1' }, 'At least 0.'],
    [{ length: '1e308' }, '1e308'],
    [{ colour: 'red' }, 'There is no field “colour” here.'],
  ])('refuses %j and keeps what was typed', async (wrong, sentence) => {
    const answer = await ask('need', { ...known, ...wrong });
    expect([answer.status, answer.words]).toEqual([422, expect.stringContaining(sentence)]);
  });
});

describe('how much thread', () => {
  it('adds seams by the chosen family of ratios', async () => {
    const seams = {
      'seams.0.ratio': 'table/301',
      'seams.0.length': '4',
      'seams.0.times': '2',
      'seams.1.ratio': 'guide/304',
      'seams.1.length': '1',
      waste: '15',
      reel: '10',
    };
    // 4 × 2 × 2.5 + 1 × 5.5 = 25.5; × 1.15 = 29.325.
    expect((await ask('thread', seams)).words).toContain('25.5 m of thread, 29.33 m with waste: 3 reels.');
    expect((await ask('thread', { waste: '15' })).words).toContain('Write down at least one seam.');
    expect((await ask('thread', { ...seams, 'seams.1.length': '' })).words).toContain(
      'How long is the seam?',
    );
    expect((await ask('thread', { ...seams, 'seams.0.ratio': 'x/1' })).words).toContain('no such ratio');
  });

  it('shows both published families with their source, and takes one of our own that can be undone', async () => {
    const { text } = await studio.get('/cloth-room/thread');
    expect(text).toContain('Carr &amp; Latham, The Technology of Clothing Manufacture');
    expect(text).toContain('Coats, Standard Stitch Type Classification Guide');
    const own = { stitch: '401', ratio: '5.4', source: 'measured on tweed, 4 stitches to the centimetre' };
    await pressed(studio, '/cloth-room/thread/ratios', own);
    await pressed(studio, '/cloth-room/thread/ratios', { ...own, ratio: '5.5' });
    const seam = { 'seams.0.ratio': 'own/401', 'seams.0.length': '2' };
    expect((await ask('thread', seam)).words).toContain('11 m of thread');
    await pressed(studio, '/cloth-room/thread/ratios/401/drop', {});
    expect((await studio.get('/cloth-room/thread')).text).not.toContain('measured on tweed');
  });

  it.each([
    [{ stitch: '4O1' }, 'three figures'],
    [{ ratio: '0' }, 'takes some thread'],
    [{ source: '' }, 'Say where the figure comes from'],
  ])('refuses a ratio with %j', async (wrong, sentence) => {
    const fields = { once: randomUUID(), stitch: '401', ratio: '5', source: 'a book', ...wrong };
    const answer = await studio.post('/cloth-room/thread/ratios', fields);
    expect([answer.status, answer.text.includes(sentence)]).toEqual([422, true]);
  });
});
