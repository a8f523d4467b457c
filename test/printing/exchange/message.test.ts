import fc from 'fast-check';
import PostalMime from 'postal-mime';
import { describe, expect, it } from 'vitest';
import { emlOf, type Message } from '../../../src/printing/exchange/message.js';

/* RFC 5322, 2045 to 2047, 2231. Read back by postal-mime, a reader that shares no line with the writer. */

const message = (changes: Partial<Message> = {}): Message => ({
  from: { name: 'Odalys Fenwright, Quillmere Workroom', address: 'odalys@quillmere.example' },
  to: [{ name: 'Corvin “Œdipe” Haddlestone', address: 'corvin@hives.example' }],
  subject: 'Rechnung I-2026-007 – für die Jacke, 漢字 🧵',
  text: 'Dear Corvin,\n\n.\nFrom here on: €1,826.87 is due.\n  \nOdalys',
  attachments: [
    {
      name: 'Rechnung Œuvre 漢字.pdf',
      type: 'application/pdf',
      bytes: new Uint8Array([37, 80, 0, 255, 13, 10, 46, 10]),
    },
    { name: 'invoice.xml', type: 'application/xml', bytes: new TextEncoder().encode('<a>é</a>') },
  ],
  date: '2026-05-04T09:30:00.000Z',
  id: 'paper-7.20260504@quillmere.example',
  ...changes,
});

const raw = async (changes: Partial<Message> = {}): Promise<string> =>
  Buffer.from(await emlOf(message(changes))).toString('latin1');

const read = async (changes: Partial<Message> = {}) => PostalMime.parse(await emlOf(message(changes)));

describe('a message ready to be opened', () => {
  it('is read back word for word and byte for byte', async () => {
    const mail = await read();
    expect(mail.from).toMatchObject({
      name: 'Odalys Fenwright, Quillmere Workroom',
      address: 'odalys@quillmere.example',
    });
    expect(mail.to).toMatchObject([{ name: 'Corvin “Œdipe” Haddlestone', address: 'corvin@hives.example' }]);
    expect(mail.subject).toBe('Rechnung I-2026-007 – für die Jacke, 漢字 🧵');
    expect(mail.text?.replace(/\n$/, '')).toBe(
      'Dear Corvin,\n\n.\nFrom here on: €1,826.87 is due.\n  \nOdalys',
    );
    expect(mail.messageId).toBe('<paper-7.20260504@quillmere.example>');
    expect(mail.date).toBe('2026-05-04T09:30:00.000Z');
    expect(mail.attachments.map((each) => [each.filename, each.mimeType, each.disposition])).toEqual([
      ['Rechnung Œuvre 漢字.pdf', 'application/pdf', 'attachment'],
      ['invoice.xml', 'application/xml', 'attachment'],
    ]);
    expect([...new Uint8Array(mail.attachments[0]?.content as ArrayBuffer)]).toEqual([
      37, 80, 0, 255, 13, 10, 46, 10,
    ]);
    expect(mail.headers.find((each) => each.key === 'x-unsent')?.value).toBe('1');
  });

  it('is seven-bit text in lines ending CR LF of at most 998 signs, the same every time', async () => {
    const text = await raw({ text: 'é'.repeat(5000), subject: '漢'.repeat(400) });
    expect(text).not.toMatch(/[^\r\n\t\x20-\x7e]/);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(Math.max(...text.split('\r\n').map((line) => line.length))).toBeLessThanOrEqual(998);
    expect(await raw()).toBe(await raw());
    expect((await read({ subject: '漢'.repeat(400) })).subject).toBe('漢'.repeat(400));
  });

  it('takes no header from anybody', async () => {
    const evil = 'x\r\nBcc: spy@elsewhere.example\r\n\r\nbody';
    const mail = await read({
      subject: evil,
      from: { name: evil, address: 'odalys@quillmere.example' },
      to: [{ name: evil, address: 'corvin@hives.example' }],
      attachments: [{ name: `a/../${evil}.pdf`, type: 'application/pdf', bytes: new Uint8Array([1]) }],
    });
    expect(mail.bcc).toBeUndefined();
    expect(mail.headers.map((each) => each.key).sort()).toEqual(
      ['content-type', 'date', 'from', 'message-id', 'mime-version', 'subject', 'to', 'x-unsent'].sort(),
    );
    expect(mail.subject).toBe('x Bcc: spy@elsewhere.example body');
    expect(mail.to).toHaveLength(1);
    expect(mail.attachments[0]?.filename).not.toMatch(/[/\\\r\n]/);
  });

  it('keeps its headers its own, whatever is typed', async () => {
    const typed = fc.string({
      unit: fc.constantFrom(
        'a',
        'é',
        '漢',
        '\r',
        '\n',
        '\r\n',
        ':',
        ' ',
        '<',
        '>',
        '"',
        ',',
        ';',
        '@',
        '=?',
        '?=',
        '\u0000',
        '\u2028',
      ),
      maxLength: 60,
    });
    await fc.assert(
      fc.asyncProperty(typed, typed, typed, async (subject, name, file) => {
        const mail = await read({
          subject,
          to: [{ name, address: 'corvin@hives.example' }],
          attachments: [{ name: file, type: 'application/pdf', bytes: new Uint8Array([1, 2]) }],
        });
        expect(mail.to?.map((each) => each.address)).toEqual(['corvin@hives.example']);
        expect(mail.attachments).toHaveLength(1);
        expect(mail.headers.length).toBeLessThanOrEqual(8);
        expect(mail.text).toContain('Odalys');
      }),
      { numRuns: 150 },
    );
  });

  it('may have nobody to go to yet, and nothing attached', async () => {
    const mail = await read({ to: [], attachments: [] });
    expect(mail.to ?? []).toEqual([]);
    expect(mail.text).toContain('Dear Corvin');
  });

  it.each([
    ['a line end in an address', { to: [{ address: 'corvin@hives.example\r\nBcc: spy@elsewhere.example' }] }],
    ['two addresses in one', { to: [{ address: 'corvin@hives.example, spy@elsewhere.example' }] }],
    ['an address without a house', { from: { address: 'odalys' } }],
    ['a broken identifier', { id: 'a>\r\nX: y@z' }],
    ['a broken date', { date: 'soon' }],
    ['a broken type', { attachments: [{ name: 'a', type: 'x\r\nY: z', bytes: new Uint8Array() }] }],
  ] as [string, Partial<Message>][])('is refused for %s', async (_why, wrong) => {
    await expect(emlOf(message(wrong))).rejects.toThrow(/./);
  });
});
