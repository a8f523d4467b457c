import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pastWorkBook } from '../../../src/storage/books/lessons/past-work-book.js';
import { makingBook } from '../../../src/storage/books/making-book.js';
import { pastGarmentBook } from '../../../src/storage/books/past-garment-book.js';
import { lessonBook } from '../../../src/storage/lesson/lesson-book.js';
import { notebookOf } from '../../../src/storage/lesson/notebook.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const columns = [
  { to: 'garment' },
  { to: 'type' },
  { to: 'operation' },
  { to: 'planned', unit: 'minutes' },
  { to: 'took', unit: 'minutes' },
  { to: 'finished' },
];
const HEAD = 'No;Type;Operation;Planned;Took;Finished\n';
const send = async (rows: string, more: object = {}) =>
  studio.api('POST', '/api/lessons/import', { text: HEAD + rows, headed: true, columns, ...more });

describe('a list of past garments by operation', () => {
  it('asks what a word means, previews, adds in one act, teaches the lesson, and is undone in one', async () => {
    const before = await lessonBook.upToDate(studio.read);
    const pasted = `${HEAD}7;waistcoat;Taschen innen;60;95,5;2025-03-01\n7;waistcoat;Rand;0;40;2025-03-01\n7;waistcoat;Knopf;30;0;\n8;waistcoat;Taschen innen;;70;2025-04-01\n8;waistcoat;Rand;;30;\n`;
    const guessed = await studio.post('/lessons/import/columns', { pasted, headed: 'yes' });
    expect(guessed.text).toMatch(/<option value="operation" selected>/);
    const carried = /name="carried" value="([^"]*)"/.exec(guessed.text)?.[1] ?? '';
    const said = {
      headed: 'yes',
      ...{ 'to.0': 'garment', 'to.1': 'type', 'to.2': 'operation', 'to.3': 'planned', 'to.4': 'took' },
      ...{ 'to.5': 'finished', 'unit.3': 'minutes', 'unit.4': 'minutes' },
    };
    const preview = await studio.post('/lessons/import/preview', { carried, ...said });
    expect(preview.status, preview.text).toBe(200);
    expect(preview.text).toContain('What the list calls operations');
    expect(preview.text).toContain('say what “Taschen innen” is');
    const answers = {
      ...{ 'work.0': 'Taschen innen', 'means.0': 'own machine' },
      ...{ 'work.1': 'Rand', 'means.1': 'own hand', 'work.2': 'Knopf', 'means.2': 'own hand' },
    };
    const again = await studio.post('/lessons/import/preview', { carried, ...said, ...answers });
    expect(again.text).toContain('line 2, 3 rows, 3 operations');
    const done = await studio.post('/lessons/import', { once: randomUUID(), carried, ...said, ...answers });
    expect(done.status, done.text).toBe(303);

    const garments = await pastWorkBook.garments(studio.read);
    expect(garments.map(({ hours, operations }) => [hours.toFixed(3), operations.length])).toEqual([
      ['2.258', 3],
      ['1.667', 2],
    ]);
    expect(
      garments[0]?.operations.map(({ kind, mode, plannedMinutes, actualMinutes }) => [
        kind,
        mode,
        plannedMinutes,
        actualMinutes,
      ]),
    ).toEqual([
      ['taschen-innen', 'machine', 60, 96],
      ['rand', 'hand', 0, 40],
      ['knopf', 'hand', 30, 0],
    ]);
    const after = await lessonBook.upToDate(studio.read);
    expect([before.garments, after.garments]).toEqual([0, 1]);
    // The one with a plan speaks by operation, the one without goes on as a total.
    expect((await notebookOf(studio.read, 'waistcoat', 'all-hand')).notebook).toHaveLength(1);
    const operations = (await studio.api('GET', '/api/lessons/operations')).json();
    expect(operations.items).toEqual(
      expect.arrayContaining([
        expect.objectContaining({ kind: 'taschen-innen', mode: 'machine', garments: 2 }),
      ]),
    );
    const { text } = await studio.get('/lessons/garment-types/waistcoat');
    expect(text).toContain('Taschen innen');
    expect(text).not.toContain('NaN');

    // Hours of a garment known by operation are their sum.
    const [one] = await pastGarmentBook.all(studio.read);
    const corrected = await studio.api('PUT', `/api/lessons/garments/${one?.id}`, {
      type: 'waistcoat',
      hours: '9',
    });
    expect([corrected.status, corrected.text]).toEqual([422, expect.stringContaining('their sum')]);

    const act = new URL(String(done.headers.location), 'http://x').searchParams.get('done');
    expect((await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: '/lessons' })).status).toBe(
      303,
    );
    expect(await pastGarmentBook.all(studio.read)).toEqual([]);
    expect((await pastWorkBook.all(studio.read)).size).toBe(0);
    expect((await lessonBook.upToDate(studio.read)).garments).toBe(0);
  });

  it('takes the measure of the usual plan where none is known, by the name the studio gives an operation', async () => {
    const [line] = (await makingBook.operations(studio.read, 'waistcoat')).filter((one) => !one.needsMinutes);
    const made = await send(`1;waistcoat;"${line?.name}";;77;2025-05-05\n`);
    expect([made.status, made.text]).toEqual([201, expect.stringContaining('"garments":1')]);
    const [one] = await pastWorkBook.garments(studio.read);
    expect(one?.operations[0]).toMatchObject({ plannedMinutes: undefined, actualMinutes: 77 });
    expect(one?.operations[0]?.usualMinutes).toBeGreaterThan(0);
    expect((await lessonBook.upToDate(studio.read)).garments).toBe(1);
    const removed = await studio.api('DELETE', `/api/lessons/garments/${one?.id}`);
    expect(removed.status, removed.text).toBe(200);
    expect((await pastWorkBook.all(studio.read)).size).toBe(0);
  });

  it.each([
    ['1;waistcoat;Rand;0;0;', 'neither planned nor done'],
    ['1;waistcoat;Rand;;;', 'no time is given'],
    ['1;waistcoat;Rand;10;12;\n1;waistcoat;;10;12;', 'Operation: none is given'],
    ['1;waistcoat;Rand;-4;12;', 'more than 0 hours'],
    ['1;waistcoat;Rand;=1+1;12;', 'not a time'],
    ['1;waistcoat;Was;10;12;', 'say what “Was” is'],
    ['1;waistcoat;Rand;10;0;', 'no time is given'],
  ])('tells what is wrong with %s, and keeps nothing of it', async (rows, sentence) => {
    const works = [{ said: 'Rand', means: 'own hand' }];
    const { items } = (await send(`${rows}\n`, { works, preview: true })).json();
    expect(items[0]).toMatchObject({ outcome: 'trouble' });
    expect(items[0].troubles.join()).toContain(sentence);
    expect((await send(`${rows}\n`, { works })).status).toBe(422);
    expect(await pastGarmentBook.all(studio.read)).toEqual([]);
  });

  it('asks for the number that tells which rows are one garment', async () => {
    const answer = await studio.api('POST', '/api/lessons/import', {
      text: 'Type;Operation;Took\nwaistcoat;Rand;12\n',
      headed: true,
      columns: [{ to: 'type' }, { to: 'operation' }, { to: 'took', unit: 'minutes' }],
    });
    expect([answer.status, answer.text]).toEqual([422, expect.stringContaining('number of the garment')]);
  });
});
