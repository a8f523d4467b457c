import { createDecipheriv, createHmac, hkdfSync, scryptSync } from 'node:crypto';

/*
 * Opens a file sealed with a passphrase by the words of the format alone, without the library the program uses.
 * Source: The age file encryption format, version 1, C2SP (c2sp.org/age): header, scrypt recipient stanza, payload.
 */

const opened = (key: Buffer, nonce: Buffer, sealed: Buffer): Buffer => {
  const body = createDecipheriv('chacha20-poly1305', key, nonce, { authTagLength: 16 });
  body.setAuthTag(sealed.subarray(-16));
  return Buffer.concat([body.update(sealed.subarray(0, -16)), body.final()]);
};
const derived = (secret: Buffer, salt: Buffer, words: string): Buffer =>
  Buffer.from(hkdfSync('sha256', secret, salt, words, 32));

export const openByTheBook = (file: Buffer, passphrase: string): { inside: Buffer; work: number } => {
  const end = file.indexOf('\n--- ');
  const bodyAt = file.indexOf('\n', end + 1) + 1;
  const [version, stanza = '', wrapped = ''] = file.toString('latin1', 0, end).split('\n');
  const [, salt = '', work = ''] = /^-> scrypt (\S+) (\d+)$/.exec(stanza) ?? [];
  if (version !== 'age-encryption.org/v1') throw new Error('another format');
  const N = 2 ** Number(work);
  const scryptSalt = Buffer.concat([
    Buffer.from('age-encryption.org/v1/scrypt'),
    Buffer.from(salt, 'base64'),
  ]);
  const wrapKey = scryptSync(passphrase, scryptSalt, 32, { N, r: 8, p: 1, maxmem: 256 * N * 8 });
  const fileKey = opened(wrapKey, Buffer.alloc(12), Buffer.from(wrapped, 'base64'));

  const mac = createHmac('sha256', derived(fileKey, Buffer.alloc(0), 'header'));
  const said = file.toString('latin1', end + 5, bodyAt - 1);
  if (
    mac
      .update(file.subarray(0, end + 4))
      .digest('base64')
      .replace(/=+$/, '') !== said
  )
    throw new Error('the header was changed');

  const payloadKey = derived(fileKey, file.subarray(bodyAt, bodyAt + 16), 'payload');
  const chunks: Buffer[] = [];
  const SIZE = 65_536 + 16;
  const payload = file.subarray(bodyAt + 16);
  for (let place = 0; place * SIZE < payload.length; place += 1) {
    const nonce = Buffer.alloc(12);
    nonce.writeUInt32BE(place, 7);
    if ((place + 1) * SIZE >= payload.length) nonce[11] = 1;
    chunks.push(opened(payloadKey, nonce, payload.subarray(place * SIZE, (place + 1) * SIZE)));
  }
  return { inside: Buffer.concat(chunks), work: Number(work) };
};
