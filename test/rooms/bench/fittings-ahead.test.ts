import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { tomorrowsFittings } from '../../../src/rooms/bench/fittings-ahead/fittings-ahead.page.js';
import { garmentMarkBook } from '../../../src/storage/books/bench/garment-mark-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aJacket, planOf } from '../commissions/an-opening.js';

let studio: TestStudio;
let jacket: string;
let commission: string;

const idOf = (url: string): string => url.split('/').at(-1)!;
const looker = { seesPrices: true, may: () => true };
const textOf = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');

beforeAll(async () => {
  studio = await openTestStudio();
  jacket = await aJacket(studio);
  commission = jacket.split('/garments/')[0]!;
});
afterAll(() => studio.close());

const plan = async (fields: Record<string, unknown>): Promise<string> => {
  const said = { kind: 'forward', at: '14:30', garmentIds: [idOf(jacket)], ...fields };
  const made = await studio.api('POST', `/api${commission}/fittings`, said);
  expect(made.status, made.text).toBe(201);
  return String(made.headers.location);
};

const mark = async (operationId: string, kind: 'operation-finished' | 'operation-left-out') => {
  const words = { kind, operationId, on: '2026-03-02', words: '', document: '' };
  await studio.unit.write(studio.visit, async (writing) => {
    await garmentMarkBook.add(writing, { ...words, garmentId: idOf(jacket), commissionId: idOf(commission) });
    writing.says('Marked an operation', 'house');
  });
};

describe('tomorrow’s fittings', () => {
  it('say what must be basted, what the last fitting showed, and what is owed', async () => {
    const first = await plan({ kind: 'baste', on: '2026-03-01' });
    await studio.api('PUT', `${first}/held`, {
      on: '2026-03-01',
      corrections: [{ garmentId: '', place: 'Left shoulder', direction: 'raise', amount: '6 mm' }],
    });
    await plan({ on: '2026-03-03', notes: 'Brown shoes' });
    await plan({ on: '2026-03-04' });
    const basting = (await planOf(studio, jacket)).filter(
      ({ stage, basting: is }) => stage === 'baste' || is,
    );
    expect(basting.length).toBeGreaterThan(2);
    await mark(basting[0]!.id, 'operation-finished');
    await mark(basting[1]!.id, 'operation-left-out');

    const { any, fittings } = await tomorrowsFittings(studio.read, studio.clock, looker);
    expect(any).toBe(true);
    expect(fittings).toMatchObject([
      {
        time: '14:30',
        what: 'Forward fitting, C-2026-001: Lounge jacket',
        who: 'Corvin Haddlestone',
        balance: 'Nothing is owed.',
        notes: 'Brown shoes',
      },
    ]);
    const [garment] = fittings[0]!.garments;
    expect(garment!.last).toBe('To put right since 1 March 2026: Left shoulder: raise 6 mm.');
    expect(garment!.baste).not.toContain(basting[0]!.name);
    expect(garment!.baste).not.toContain(basting[1]!.name);
    for (const { name } of basting.slice(2)) expect(garment!.baste).toContain(name);
    expect(garment!.baste).toMatch(/Together \d+ h/);
  });

  it('stand on the day sheet; prices only for those who see them', async () => {
    const text = textOf((await studio.get('/')).text);
    expect(text).toContain('Fittings tomorrow 14:30 Forward fitting, C-2026-001: Lounge jacket');
    expect(text).toContain('Nothing is owed.');
    const blind = await tomorrowsFittings(studio.read, studio.clock, { ...looker, seesPrices: false });
    expect(blind.fittings[0]!.balance).toBe('');
  });
});
