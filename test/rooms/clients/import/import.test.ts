import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { add, fieldsOf, toPreview, upload } from './steps.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

type Named = { id: string; name: string; phone: string; address: string; notes: string; email: string };
const found = async (asked: string): Promise<Named[]> =>
  (await studio.api('GET', `/api/clients?limit=100&q=${encodeURIComponent(asked)}`)).json().items;

describe('a table of clients', () => {
  it('is looked at column by column and row by row, then added in one act that can be undone', async () => {
    const csv =
      'Name,E-mail,Phone,Street,Town,Chest (in),Waist cm\nAda Sleeve,ada@mill.example,0100,3 Mill,Quill,41 1/2,"90,5"\nBea Gusset,,0101,,,,\n';
    const preview = await toPreview(studio, csv);
    expect(preview.status).toBe(200);
    expect(preview.text).toContain('Nothing is added yet');
    expect(preview.text).toContain('41 1/2 in, 90,5 cm'.replace('90,5', '90.5'));
    expect(await found('sleeve')).toEqual([]);
    const added = await add(studio, preview.text);
    expect(added.status).toBe(303);
    const list = await studio.get(String(added.headers.location));
    expect(list.text).toContain('Brought in 2 clients and 1 set of measurements from a list');
    const [ada] = await found('sleeve');
    expect(ada).toMatchObject({ email: 'ada@mill.example', phone: '0100', address: '3 Mill\nQuill' });
    const sets = (await studio.api('GET', `/api/clients/${ada!.id}/measurements`)).json().items;
    expect(sets[0]).toMatchObject({ takenOn: '2026-03-02', takenBy: 'Odalys Fenwright' });
    expect(sets[0].values).toMatchObject([
      { dimension: 'chest-girth', typed: '41 1/2', unit: 'in', mm: '1054.1' },
      { dimension: 'waist-girth', typed: '90,5', unit: 'cm', mm: '905' },
    ]);
    const act = new URL(String(added.headers.location), 'http://x').searchParams.get('done');
    expect((await studio.post(`/history/${act}/undo`, { once: randomUUID() })).status).toBe(303);
    expect(await found('sleeve')).toEqual([]);
    expect(await found('gusset')).toEqual([]);
  });

  it.each([
    [
      'semicolons, a mark of UTF-8 and quoted line breaks',
      '\ufeffName;Notes\n"Märta; Ström";"first ""line""\nsecond"\n',
    ],
    ['tabs', 'Name\tNotes\nMärta; Ström\t"first ""line""\nsecond"\n'],
    [
      'commas after a line that says so',
      'sep=,\r\nName,Notes\r\n"Märta; Ström","first ""line""\nsecond"\r\n',
    ],
    [
      'Windows-1252',
      Buffer.from('Name;Notes\n"M\u00e4rta; Str\u00f6m";"first ""line""\nsecond"\n', 'latin1'),
    ],
  ])('may have %s', async (_, bytes) => {
    const preview = await toPreview(studio, bytes);
    expect(preview.text).toContain('Märta; Ström');
    const added = await add(studio, preview.text);
    expect(added.status).toBe(303);
    const [one] = await found('marta strom');
    expect(one).toMatchObject({ name: 'Märta; Ström', notes: 'first "line"\nsecond' });
    const act = new URL(String(added.headers.location), 'http://x').searchParams.get('done');
    await studio.post(`/history/${act}/undo`, { once: randomUUID() });
  });

  it('can be pasted, without names of columns, from a page without script', async () => {
    const columns = await studio.post('/clients/import/columns', { pasted: 'Pasted One,1\nPasted Two,2' });
    expect(columns.status).toBe(200);
    expect(columns.text).toContain('Column 1: Pasted One');
    const fields = { ...fieldsOf(columns.text), 'to.0': '', 'to.1': 'phone' };
    const nameless = await studio.post('/clients/import/preview', fields);
    expect(nameless.status).toBe(422);
    expect(nameless.text).toContain('Say which column holds the name.');
    const preview = await studio.post('/clients/import/preview', {
      ...fieldsOf(nameless.text),
      'to.0': 'name',
      'to.1': 'phone',
    });
    expect((await add(studio, preview.text)).status).toBe(303);
    expect((await found('pasted')).map(({ phone }) => phone)).toEqual(['1', '2']);
  });

  it('says the trouble by row, adds nothing until somebody says what becomes of it', async () => {
    const csv =
      'Name,Email,Waist,Date of birth\nGood Row,,36 in,\n,nobody@mill.example,,\nBad Mail,nonsense,,\nWide One,,wide,\nUnborn,,,2031-13-40\n';
    const preview = await toPreview(studio, csv);
    expect(preview.text).toContain('Give the client’s name.');
    expect(preview.text).toContain('An email address has an @ in it.');
    expect(preview.text).toContain('has no figures');
    expect(preview.text).toContain('line 3');
    const refused = await add(studio, preview.text);
    expect(refused.status).toBe(422);
    expect(refused.text).toContain('4 of the rows cannot be read');
    expect(await found('good row')).toEqual([]);
    expect((await add(studio, refused.text, { leaveTroubles: 'yes' })).status).toBe(303);
    expect(await found('good row')).toHaveLength(1);
    expect(await found('wide one')).toEqual([]);
  });

  it('points out who is there already, folded, and in the list itself; leaves them out unless told otherwise', async () => {
    await studio.api('POST', '/api/clients', { name: 'Zoë  Ångström', email: 'zoe@mill.example' });
    const csv =
      'Name,Email,Waist cm,Measured on\nZOE ANGSTROM,,80,2025-01-02\nOther Name,ZOE@mill.example,,\nNew One,,70,2025-01-02\nnew one,,71,2026-01-02\n';
    const preview = await toPreview(studio, csv);
    expect(preview.text.match(/is there already/g)?.length).toBeGreaterThanOrEqual(2);
    expect(preview.text).toContain('the same as line 4');
    expect((await add(studio, preview.text, { twins: 'measure' })).status).toBe(303);
    const [zoe, ...more] = await found('zoe');
    expect(more).toEqual([]);
    const sets = async (id: string) =>
      (await studio.api('GET', `/api/clients/${id}/measurements`)).json().items;
    expect(await sets(zoe!.id)).toHaveLength(1);
    const [fresh, ...none] = await found('new one');
    expect(none).toEqual([]);
    expect((await sets(fresh!.id)).map((one: { takenOn: string }) => one.takenOn)).toEqual([
      '2026-01-02',
      '2025-01-02',
    ]);
    const again = await toPreview(studio, csv);
    const nothing = await add(studio, again.text, { twins: 'leave' });
    expect(nothing.status).toBe(422);
    expect(nothing.text).toContain('Nothing of this list would be added');
  });

  it('asks about measurements that look like a slip', async () => {
    const preview = await toPreview(studio, 'Name,Chest cm\nTyped In Inches,41\n');
    expect(preview.text).toContain('would be very unusual');
    const asked = await add(studio, preview.text);
    expect(asked.status).toBe(422);
    expect(asked.text).toContain('some measurements look like a slip');
    expect((await add(studio, asked.text, { keepUnusual: 'yes' })).status).toBe(303);
  });

  it('is added once when the button is pressed twice', async () => {
    const preview = await toPreview(studio, 'Name\nPressed Twice\n');
    const both = await Promise.all([1, 2].map(() => add(studio, preview.text)));
    expect(both.map(({ status }) => status)).toEqual([303, 303]);
    expect(await found('pressed twice')).toHaveLength(1);
  });

  it('shows markup, template syntax and other scripts as text', async () => {
    const preview = await toPreview(studio, 'Name,Notes\n<script>{{x}}</script>,عميل قديم\n');
    expect(preview.text).toContain('&lt;script&gt;{{x}}');
    expect(preview.text).not.toContain('<script>{{');
    const long = await toPreview(studio, `Name\n${'Ü'.repeat(401)}\n`);
    expect(long.text).toContain('At most 400 characters.');
  });

  it('is refused in clear sentences when it is too large, too long, no text or not there', async () => {
    const large = await upload(studio, Buffer.alloc(2 * 1024 * 1024 + 1, 'a'));
    expect([large.status, large.text.includes('larger than 2 MB')]).toEqual([422, true]);
    const long = await upload(studio, `Name\n${'x\n'.repeat(5001)}`);
    expect([long.status, long.text.includes('at most 5000 are brought in at once')]).toEqual([422, true]);
    const picture = await upload(studio, Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 0, 0xff]));
    expect([picture.status, picture.text.includes('not a text file')]).toEqual([422, true]);
    expect((await upload(studio, '')).text).toContain('Choose a file, or paste the list.');
    expect((await upload(studio, 'Name\n')).text).toContain('There are no clients in this table.');
    expect((await upload(studio, 'Name,Notes\nA,"open\nB,c\n')).text).toContain('opened and not closed');
    const lost = await studio.post('/clients/import', {
      carried: 'nonsense',
      'to.0': 'name',
      'unit.0': 'cm',
    });
    expect(lost.status).toBe(422);
    expect((await studio.get('/clients/import/preview')).status).toBe(303);
  });
});

describe('contacts', () => {
  it('are read as vCard 3.0 and 4.0, folded lines and escapes included', async () => {
    const cards = [
      'BEGIN:VCARD\r\nVERSION:3.0\r\nN:Fold;Lina;;;\r\nFN:Lina Fold\r\nTEL;TYPE=HOME:1\r\nTEL;TYPE=CELL,PREF:2\r\nitem1.EMAIL:lina@mill.example\r\nADR;TYPE=HOME:;;3 Mill Lane\\, upper floor;Quill;;QM4;Eire\r\nNOTE:one\\ntwo\\; and a long line that goes\r\n  on here\r\nPHOTO;ENCODING=b:AAAA\r\nEND:VCARD',
      'BEGIN:VCARD\r\nVERSION:4.0\r\nFN:Omar Kettle\r\nTEL;VALUE=uri;TYPE="voice,home":tel:+353-1\r\nBDAY:19800229\r\nEND:VCARD',
    ].join('\r\n');
    const preview = await toPreview(studio, cards);
    expect((await add(studio, preview.text)).status).toBe(303);
    const [lina] = await found('lina fold');
    expect(lina).toMatchObject({
      phone: '2',
      email: 'lina@mill.example',
      address: '3 Mill Lane, upper floor\nQM4 Quill',
      country: 'Eire',
      notes: 'one\ntwo; and a long line that goes on here',
    });
    expect((await found('omar'))[0]).toMatchObject({ phone: '+353-1', birthDate: '1980-02-29' });
    expect((await upload(studio, 'BEGIN:VCARD\nFN:A')).text).toContain('has no end');
  });
});

describe('the same for programs', () => {
  it('tells what would become of each row, then adds', async () => {
    const sent = {
      text: 'Name;Seat\nFor Programs;100\n;2\n',
      headed: true,
      takenBy: 'OF',
      columns: [
        { to: 'name', unit: 'cm' },
        { to: 'd.hip-girth', unit: 'cm' },
      ],
    };
    const preview = await studio.api('POST', '/api/clients/import', { ...sent, preview: true });
    expect(preview.json().items.map(({ outcome }: { outcome: string }) => outcome)).toEqual([
      'add',
      'trouble',
    ]);
    expect(await found('for programs')).toEqual([]);
    expect((await studio.api('POST', '/api/clients/import', sent)).status).toBe(422);
    const added = await studio.api('POST', '/api/clients/import', { ...sent, leaveTroubles: true });
    expect(added.json()).toEqual({ clients: 1, sets: 1, leftOut: 1 });
    expect((await studio.api('POST', '/api/clients/import', { ...sent, odd: 1 })).status).toBe(422);
  });
});
