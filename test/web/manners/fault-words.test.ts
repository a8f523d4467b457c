import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ClientRow } from '../../../src/storage/rows/clients/client.row.js';
import { faultWords } from '../../../src/web/manners/fault-words.js';
import { type KeptHome, kinds, openKeptHome } from '../../storage/kept-home.js';

const SECRET = 'Corvin-Haddlestone-inside-leg-812';

describe.each(kinds)('a fault of the database, in words for the log, on %s', (kind) => {
  let kept: KeptHome;
  beforeAll(async () => {
    kept = await openKeptHome(kind);
  });
  afterAll(() => kept.close());

  const row = (id: string, more = {}) => ({
    id,
    version: 1,
    code: SECRET,
    name: SECRET,
    folded: '',
    address: '',
    country: '',
    email: '',
    phone: '',
    tax_number: '',
    notes: '',
    is_child: false,
    birth_date: null,
    guardian: '',
    ...more,
  });
  const faultOf = async (work: Promise<unknown>): Promise<Error> => {
    const fault = await work.then(
      () => undefined,
      (error: unknown) => error,
    );
    if (!(fault instanceof Error)) throw new Error('nothing went wrong');
    return fault;
  };

  it('names the rule that was broken, and none of what was typed', async () => {
    await kept.writing.manager.insert(ClientRow, row('one'));
    const fault = await faultOf(kept.writing.manager.insert(ClientRow, row('two')));
    expect(JSON.stringify({ ...fault })).toContain(SECRET);
    const words = faultWords(fault);
    expect(JSON.stringify(words)).not.toContain(SECRET);
    expect(words.message).toContain(kind === 'postgres' ? '23505' : 'SQLITE_CONSTRAINT');
    expect(words.stack).toContain('QueryRunner');
  });

  it('repeats no value that could not be read', async () => {
    const wrong = row(SECRET, { version: SECRET, is_child: SECRET, name: null });
    const fault = await faultOf(kept.writing.manager.insert(ClientRow, wrong));
    expect(JSON.stringify(faultWords(fault))).not.toContain(SECRET);
  });
});

it('a fault with a message of many lines, and what is no error at all', () => {
  const words = faultWords(new Error(`one\n${'two '.repeat(200)}\nthree`));
  expect(words.message).toHaveLength(300);
  expect(words.stack.split('\n').every((line) => line.trimStart().startsWith('at '))).toBe(true);
  expect(faultWords({ secret: SECRET })).toEqual({ name: 'Thrown', message: 'object', stack: '' });
});
