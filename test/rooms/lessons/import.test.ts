import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pastGarmentBook } from '../../../src/storage/books/past-garment-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { upload } from '../clients/import/steps.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const kept = () => pastGarmentBook.all(studio.read);
const hidden = (html: string, name: string): string =>
  new RegExp(`name="${name.replace('.', '\\.')}" value="([^"]*)"`).exec(html)?.[1] ?? '';
const columnsOf = (pasted: string) => studio.post('/lessons/import/columns', { pasted, headed: 'yes' });
const typeAndTook = { headed: 'yes', 'to.0': 'type', 'to.1': 'took', 'unit.1': 'hours' };

/** Goes through the steps as a person would, with the guesses corrected by `said`. */
const bring = async (pasted: string, said: Record<string, string>) => {
  const carried = hidden((await columnsOf(pasted)).text, 'carried');
  const preview = await studio.post('/lessons/import/preview', { carried, ...said });
  const add = (more: Record<string, string> = {}) =>
    studio.post('/lessons/import', { once: randomUUID(), carried, ...said, ...more });
  return { preview, add };
};
const undo = async (url: unknown) => {
  const act = new URL(String(url), 'http://x').searchParams.get('done');
  return studio.post(`/history/${act}/undo`, { once: randomUUID(), back: '/lessons' });
};

describe('a list of garments made before', () => {
  it('with semicolons and decimal commas is guessed, previewed, added in one act and undone in one', async () => {
    const list =
      'Type;Finished;Hours;Planned hours;Remark\nLounge jacket;2025-11-02;52,5;48;"the grey; two buttons"\nwaistcoat;2.12.2025;12:30;;=1+1\n';
    const { text } = await columnsOf(list);
    expect(text).toContain('2 rows were found');
    expect(text).toMatch(/<option value="took" selected>/);
    const said = {
      headed: 'yes',
      ...{ 'to.0': 'type', 'to.1': 'finished', 'to.2': 'took', 'to.3': 'planned', 'to.4': 'note' },
      ...{ 'unit.2': 'hours', 'unit.3': 'hours' },
    };
    const { preview, add } = await bring(list, said);
    expect(preview.status).toBe(200);
    expect(preview.text).toContain('2 November 2025');
    const done = await add();
    expect(done.status, done.text.slice(0, 2000)).toBe(303);
    expect(
      (await kept()).map((one) => [
        one.typeId,
        one.hours.toFixed(),
        one.plannedHours?.toFixed(),
        one.finishedOn,
        one.note,
      ]),
    ).toEqual([
      ['lounge-jacket', '52.5', '48', '2025-11-02', 'the grey; two buttons'],
      ['waistcoat', '12.5', undefined, '2025-12-02', '=1+1'],
    ]);
    // Brought in again, the dated ones are there already.
    const again = await bring(list, said);
    expect(again.preview.text).toContain('written down already');
    expect((await again.add()).status).toBe(422);
    expect(await kept()).toHaveLength(2);
    expect((await undo(done.headers.location)).status).toBe(303);
    expect(await kept()).toEqual([]);
  });

  it('asks whether bare numbers are hours or minutes, and what words of its own mean', async () => {
    const list = 'Type,Took\nMantel,3120\nMantel,52h30\n';
    const asked = await bring(list, { ...typeAndTook, 'unit.1': '' });
    expect(asked.preview.status).toBe(422);
    expect(asked.preview.text).toContain('Are they hours or minutes?');
    const said = { ...typeAndTook, 'unit.1': 'minutes' };
    const { preview, add } = await bring(list, said);
    expect(preview.text).toContain('say what “Mantel” is');
    expect(hidden(preview.text, 'said.0')).toBe('Mantel');
    expect((await add()).text).toContain('Nothing was added: 2 of the garments cannot be read.');
    const done = await add({ 'said.0': 'Mantel', 'kind.0': 'lounge-jacket' });
    expect(done.status).toBe(303);
    expect((await kept()).map(({ hours }) => hours.toFixed())).toEqual(['52', '52.5']);
    await undo(done.headers.location);
  });

  it('adds the rows of one garment together, and asks about the one far off from the others', async () => {
    const rows = [52, 55, 58, 61, 3120].map((hours, n) => `shirt,${hours},${n}\nshirt,1,${n}`).join('\n');
    const said = { ...typeAndTook, 'to.2': 'garment' };
    const { preview, add } = await bring(`Type,Hours,Number\n${rows}\n`, said);
    expect(preview.text).toContain('line 2, 2 rows');
    expect(preview.text).toContain('minutes among hours');
    expect((await add()).text).toContain('some times look like a slip');
    const done = await add({ keepUnusual: 'yes' });
    expect(done.status).toBe(303);
    expect((await kept()).map(({ hours }) => hours.toNumber())).toEqual([53, 56, 59, 62, 3121]);
    await undo(done.headers.location);
  });

  it.each([
    ['shirt,-4', 'more than 0 hours'],
    ['shirt,0', 'more than 0 hours'],
    ['shirt,1e999', 'not a time'],
    ['shirt,=1+1', 'not a time'],
    ['shirt,"1.250"', 'can be read in two ways'],
    ['shirt,', 'no time is given'],
    [',12', 'none is given'],
    ['<b>hat</b>,12', '&lt;b&gt;hat&lt;/b&gt;'],
  ])('tells by its line what is wrong with %s, and adds nothing of it', async (row, sentence) => {
    const { preview, add } = await bring(`Type,Hours\nshirt,14\n${row}\n`, typeAndTook);
    expect(preview.text).toContain(sentence);
    expect(preview.text).toContain('line 3');
    expect((await add()).status).toBe(422);
    expect(await kept()).toEqual([]);
  });

  it('reads Windows-1252 out of a file', async () => {
    // The umlaut as one byte, as spreadsheets of the West save it.
    const file = Buffer.from('Typ;Stunden\nH\xfclle;52,5\n', 'latin1');
    const answer = await upload(studio, file, 'old.csv', true, '/lessons/import/columns');
    expect(answer.status).toBe(200);
    expect(answer.text).toContain('Hülle');
  });

  it('refuses what is empty', async () => {
    expect((await columnsOf('')).text).toContain('Choose a file, or paste the list.');
    expect((await columnsOf('Type,Hours\n')).text).toContain('There are no garments in this table.');
  });

  it('of 50,000 rows is previewed whole, one more is refused, and thousands come in through the API', async () => {
    const lines = (count: number): string =>
      Array.from({ length: count }, (_, i) => `shirt;${10 + (i % 7)},5\n`).join('');
    const send = (text: string, preview: boolean) =>
      studio.api('POST', '/api/lessons/import', {
        text: `Type;Hours\n${text}`,
        headed: true,
        columns: [{ to: 'type' }, { to: 'took', unit: 'hours' }],
        preview,
      });
    const all = (await send(lines(50_000), true)).json().items;
    expect(all).toHaveLength(50_000);
    expect(all.every(({ outcome }: { outcome: string }) => outcome === 'add')).toBe(true);
    expect((await send(lines(50_001), true)).status).toBe(422);
    expect((await send('shirt;x\n', true)).json().items).toMatchObject([{ line: 2, outcome: 'trouble' }]);
    expect(await kept()).toEqual([]);
    const made = await send(lines(2000), false);
    expect(made.status).toBe(201);
    expect(made.json()).toEqual({ garments: 2000, leftOut: 0 });
    const { text } = await studio.get('/lessons/garment-types/shirt');
    expect(text).toContain('Each dot stands for up to');
    expect(text).toContain('2000 garments');
    expect(text).not.toContain('NaN');

    const newest = async () => (await studio.api('GET', '/api/history?limit=1')).json().items[0].id;
    const takeBack = async () => (await studio.api('POST', `/api/history/${await newest()}/undo`, {})).status;
    const before = await kept();
    const one = before[1234]!;
    await studio.unit.write(studio.visit, async (writing) => {
      await pastGarmentBook.correct(writing, one.id, { ...one, note: 'Let out at the side' });
      writing.says('Corrected a garment', 'lessons/totals');
    });
    const [, list] = (await studio.api('GET', '/api/history?limit=2')).json().items;
    const refused = await studio.api('POST', `/api/history/${list.id}/undo`, {});
    expect(refused.status).toBe(409);
    expect(await kept()).toHaveLength(2000);
    expect(await takeBack()).toBeLessThan(300);
    expect((await studio.api('POST', `/api/history/${list.id}/undo`, {})).status).toBe(409);
  }, 60_000);

  it('of 3,000 rows is undone, and the undoing too, with every garment as it was', async () => {
    const text = `Type;Hours\n${'shirt;10,5\n'.repeat(3000)}`;
    const columns = [{ to: 'type' }, { to: 'took', unit: 'hours' }];
    const had = await kept();
    const send = { text, headed: true, columns, twins: 'add' };
    expect((await studio.api('POST', '/api/lessons/import', send)).status).toBe(201);
    const full = await kept();
    expect(full).toHaveLength(had.length + 3000);
    const newest = async () => (await studio.api('GET', '/api/history?limit=1')).json().items[0].id;
    const takeBack = async () => studio.api('POST', `/api/history/${await newest()}/undo`, {});
    expect((await takeBack()).status).toBeLessThan(300);
    expect(await kept()).toEqual(had);
    expect((await takeBack()).status).toBeLessThan(300);
    const plain = (all: typeof full) => all.map(({ version: _version, ...words }) => words);
    expect(plain(await kept())).toEqual(plain(full));
  }, 60_000);
});
