import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ReadSide } from '../../../src/storage/read-side.js';
import { sweep } from '../../../src/storage/sweep.js';
import { aPhoto, PLANTED, segmentsOf, withExif } from '../../storage/pictures/a-photo.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { garmentsOf, openCommission } from '../commissions/an-opening.js';

let studio: TestStudio;
let client: string;
let photo: Buffer;

beforeAll(async () => {
  studio = await openTestStudio();
  const made = await studio.api('POST', '/api/clients', { name: 'Corvin Haddlestone' });
  client = made.json().id;
  photo = withExif(await aPhoto());
});
afterAll(() => studio.close());

const textOf = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');

/** Sends the form as a browser does; the file stands in the middle of the fields. */
const send = async (fields: Record<string, string>, bytes: Buffer, name = 'back.jpg') => {
  const edge = 'edge-of-a-part';
  const field = ([key, value]: [string, string]): string =>
    `--${edge}\r\ncontent-disposition: form-data; name="${key}"\r\n\r\n${value}\r\n`;
  const [first, ...others] = Object.entries(fields);
  const payload = Buffer.concat([
    Buffer.from(first ? field(first) : ''),
    Buffer.from(
      `--${edge}\r\ncontent-disposition: form-data; name="photo"; filename="${name}"\r\ncontent-type: image/jpeg\r\n\r\n`,
    ),
    bytes,
    Buffer.from(`\r\n${others.map(field).join('')}--${edge}--\r\n`),
  ]);
  const answer = await studio.app.inject({
    method: 'POST',
    url: '/photos',
    headers: {
      'content-type': `multipart/form-data; boundary=${edge}`,
      'sec-fetch-site': 'same-origin',
      cookie: studio.cookie,
    },
    payload,
  });
  return { status: answer.statusCode, text: answer.payload, location: String(answer.headers.location) };
};

const ofClient = (fields: Record<string, string> = {}) => ({
  of: `client/${client}`,
  once: randomUUID(),
  takenOn: '2026-03-02',
  words: 'Back view <b>',
  scope: 'workroom',
  consentBy: 'Corvin Haddlestone',
  until: '2026-03-05',
  ...fields,
});

const listed = async (of = `client/${client}`) =>
  (await studio.api('GET', `/api/photos?of=${of}`)).json().items as { id: string }[];

describe('a photograph', () => {
  it('is kept once, small, without the place the camera wrote, and seen only by who is signed in', async () => {
    const fields = ofClient();
    const first = await send(fields, photo);
    expect(first.status, textOf(first.text)).toBe(303);
    expect((await send(fields, photo)).location).toBe(first.location);
    const [one, ...more] = await listed();
    expect(more).toEqual([]);
    expect(one).toMatchObject({ width: 800, height: 1600, scope: 'workroom', until: '2026-03-05' });

    const answer = await studio.app.inject({
      url: `/photos/${one!.id}/picture`,
      headers: { cookie: studio.cookie },
    });
    expect(answer.headers).toMatchObject({
      'content-type': 'image/jpeg',
      'x-content-type-options': 'nosniff',
      'cache-control': 'no-store',
    });
    expect(String(answer.headers['content-disposition'])).toMatch(/^inline; filename="photograph-/);
    expect(segmentsOf(answer.rawPayload)).not.toContain('e1');
    expect(answer.rawPayload.includes(PLANTED.maker)).toBe(false);
    const stranger = await studio.app.inject({ url: `/photos/${one!.id}/picture` });
    expect(stranger.statusCode).not.toBe(200);
    expect(stranger.rawPayload.includes(Buffer.from([0xff, 0xd8, 0xff]))).toBe(false);

    // The bytes as they lie in the data file, and nothing of them in the history.
    const { manager } = studio.app.get(ReadSide);
    const kept: { picture_bytes: string }[] = await manager.query('SELECT picture_bytes FROM photo_picture');
    expect(Buffer.from(kept[0]!.picture_bytes, 'base64').includes('Exif')).toBe(false);
    const history: { all_of_it: string }[] = await manager.query(
      "SELECT COALESCE(before, '') || COALESCE(after, '') AS all_of_it FROM change WHERE in_table LIKE 'photo%'",
    );
    expect(history.length).toBe(2);
    expect(history.every(({ all_of_it }) => all_of_it.length < 1000)).toBe(true);
    expect((await studio.get(`/photos?of=client/${client}`)).text).toContain('Back view &lt;b&gt;');
  });

  it('that is none, or too large, or without consent is refused; everything typed is kept', async () => {
    const before = await listed();
    const svg = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>');
    const drawing = await send(ofClient(), svg, 'back.svg');
    expect(drawing.status).toBe(422);
    expect(textOf(drawing.text)).toContain('This is no photograph that can be taken in.');
    const large = await send(
      ofClient({ words: 'The large one' }),
      Buffer.concat([photo, Buffer.alloc(40 * 1024 * 1024)]),
    );
    expect(large.status).toBe(422);
    expect(textOf(large.text)).toContain('larger than 20 MB');
    expect(large.text).toContain('value="The large one"');
    const alone = await send(ofClient({ consentBy: '', until: '' }), photo);
    expect(alone.status).toBe(422);
    expect(textOf(alone.text)).toContain('Write who agreed to the photograph.');
    expect(await listed()).toEqual(before);
  });

  it('whose consent ran out is shown to nobody, and swept away', async () => {
    const [one] = await listed();
    studio.clock.forward(4 * 24 * 60);
    expect(await listed()).toEqual([]);
    expect((await studio.get(`/photos/${one!.id}/picture`)).status).toBe(404);
    studio.clock.forward(24 * 60);
    await sweep(studio.unit, studio.clock.ticks());
    const { manager } = studio.app.get(ReadSide);
    expect(await manager.query('SELECT id FROM photo_picture')).toEqual([]);
  });

  it('is gone for good when the consent is withdrawn: no undo, no bytes anywhere', async () => {
    const fields = ofClient({ takenOn: '2026-03-06', until: '2027-03-20' });
    expect((await send(fields, photo)).status).toBe(303);
    const { manager } = studio.app.get(ReadSide);
    const [{ picture_bytes: bytes }] = (await manager.query('SELECT picture_bytes FROM photo_picture')) as [
      { picture_bytes: string },
    ];
    const answer = await studio.post('/photos/withdraw', {
      once: randomUUID(),
      client,
      of: `client/${client}`,
    });
    expect(answer.status).toBe(303);
    expect(await listed()).toEqual([]);
    const act = new URL(String(answer.headers.location), 'http://x').searchParams.get('done')!;
    expect((await studio.post(`/history/${act}/undo`, { once: randomUUID() })).status).toBe(409);
    const [{ found }] = (await manager.query(
      "SELECT COUNT(*) AS found FROM change WHERE before LIKE '%' || ? || '%' OR after LIKE '%' || ? || '%'",
      [bytes.slice(500, 560), bytes.slice(500, 560)],
    )) as [{ found: number }];
    expect(found).toBe(0);
  });

  it('of a child needs the house to have switched that on, and stays within shorter months', async () => {
    const words = { name: 'Tibb Haddlestone', isChild: true, guardian: 'Corvin Haddlestone' };
    const child = (await studio.api('POST', '/api/clients', words)).json().id as string;
    const fields = ofClient({ of: `client/${child}`, takenOn: '2026-03-06', until: '2026-06-06' });
    expect((await studio.get(`/photos?of=client/${child}`)).text).not.toContain('type="file"');
    const refused = await send(fields, photo);
    expect(refused.status).toBe(403);
    expect(textOf(refused.text)).toContain('Children are not photographed in this house.');
    const rule = { once: randomUUID(), months: '24', childMonths: '3', ofChildren: 'yes' };
    expect((await studio.post('/house/photographs', rule)).status).toBe(303);
    expect((await studio.get(`/photos?of=client/${child}`)).text).toContain(
      'name="until" type="date" class="date" value="2026-06-07"',
    );
    expect((await send({ ...fields, once: randomUUID() }, photo)).status).toBe(303);
  });

  it('of a fitting goes with the consent of each who was on it', async () => {
    const commission = await openCommission(studio, {
      'garments.1.type': 'waistcoat',
      'garments.1.wearer': 'Isaura Pellgrove',
      'confirm.garments.1.wearer': 'yes',
    });
    const garmentIds = (await garmentsOf(studio, commission)).map((url) => url.split('/').at(-1)!);
    const said = { kind: 'baste', on: '2026-03-06', at: '10:00', garmentIds };
    const { id } = (await studio.api('POST', `/api${commission}/fittings`, said)).json();
    const of = `${commission.slice(1).replace('commissions', 'commission')}/fitting/${id}`;
    const fields = ofClient({ of, takenOn: '2026-03-06', until: '2027-03-06' });
    expect((await send(fields, photo)).status).toBe(303);
    expect((await studio.get(`/photos?of=${of}`)).text).toContain('Isaura Pellgrove withdraws');
    const { wearerId } = (await studio.api('GET', `/api/garments/${garmentIds[1]}`)).json();
    const [one] = await listed(of);
    expect(one).not.toMatchObject({ clientId: wearerId });
    await studio.post('/photos/withdraw', { once: randomUUID(), client: wearerId, of });
    expect(await listed(of)).toEqual([]);
  });

  it('of a swatch needs nobody’s consent and stands on its material', async () => {
    const made = await studio.api('POST', '/api/materials', {
      name: 'Quill grey tweed',
      kind: 'cloth',
      unit: 'm',
    });
    expect(made.status, made.text).toBe(201);
    const of = `material/${made.json().id}`;
    const page = await studio.get(`/photos?of=${of}`);
    expect(page.text).not.toContain('name="consentBy"');
    const answer = await send({ of, once: randomUUID(), takenOn: '2026-03-06', words: '' }, photo);
    expect(answer.status, textOf(answer.text)).toBe(303);
    const [one] = await listed(of);
    expect((await studio.get(`/cloth-room/materials/${made.json().id}`)).text).toContain(
      `/photos/${one!.id}/small`,
    );
    expect((await studio.api('DELETE', `/api/photos/${one!.id}`)).status).toBe(200);
    expect(await listed(of)).toEqual([]);
  });
});
