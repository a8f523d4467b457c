import { createHash } from 'node:crypto';
import { createReadStream, createWriteStream } from 'node:fs';
import { open } from 'node:fs/promises';
import { Readable, Transform, Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type { ReadableStream } from 'node:stream/web';
import { Decrypter, Encrypter } from 'age-encryption';

/*
 * Sealed with a passphrase in the age format, version 1 (age-encryption.org/v1), so that `age -d` or any other program that
 * keeps to the format opens it.
 */

/** What a sealed file begins with. */
const BEGINNING = 'age-encryption.org/v1\n';

/** The exponent of scrypt's work: 2^18 takes about a second and 256 MB of a desk computer, which is what guessing costs too. */
export const WORK = 18;

/** The first lines are of this size at the most; a chunk of the body is 64 KiB and a mark of 16 bytes. */
export type Sealing = {
  readonly task: 'seal' | 'open';
  readonly from: string;
  /** Undefined to read it through only. */
  readonly to: string | undefined;
  readonly passphrase: string;
  readonly work?: number;
};

/** How it ended: the SHA-256 of what is inside, or why it was not done. */
export type Sealed =
  | { readonly is: 'done'; readonly sha256: string }
  | { readonly is: 'wrong-passphrase' | 'damaged' };

export const isSealed = async (file: string): Promise<boolean> => {
  const handle = await open(file, 'r');
  try {
    const { buffer, bytesRead } = await handle.read(Buffer.alloc(BEGINNING.length), 0, BEGINNING.length, 0);
    return buffer.toString('latin1', 0, bytesRead) === BEGINNING;
  } finally {
    await handle.close();
  }
};

const nowhere = (): Writable =>
  new Writable({
    write(_chunk, _encoding, done) {
      done();
    },
  });

/** Seals or opens a file from one place to another without holding it in memory. */
export const workAtSeal = async ({ task, from, to, passphrase, work = WORK }: Sealing): Promise<Sealed> => {
  const hash = createHash('sha256');
  const hashing = (): Transform =>
    new Transform({
      transform(chunk: Buffer, _encoding, done) {
        hash.update(chunk);
        done(null, chunk);
      },
    });
  const [source, target] = [
    createReadStream(from),
    () => (to ? createWriteStream(to, { flags: 'wx', mode: 0o600 }) : nowhere()),
  ];
  try {
    if (task === 'seal') {
      const encrypter = new Encrypter();
      encrypter.setPassphrase(passphrase);
      encrypter.setScryptWorkFactor(work);
      const hashed = source.pipe(hashing());
      source.once('error', (error) => hashed.destroy(error));
      const sealed = await encrypter.encrypt(Readable.toWeb(hashed) as ReadableStream<Uint8Array>);
      await pipeline(Readable.fromWeb(sealed as ReadableStream<Uint8Array>), target());
    } else {
      const decrypter = new Decrypter();
      decrypter.addPassphrase(passphrase);
      const opened = await decrypter.decrypt(Readable.toWeb(source) as ReadableStream<Uint8Array>);
      await pipeline(Readable.fromWeb(opened as ReadableStream<Uint8Array>), hashing(), target());
    }
    return { is: 'done', sha256: hash.digest('hex') };
  } catch (error) {
    // What the file system says has a code; what the format says has not.
    if (task === 'seal' || typeof (error as { code?: unknown }).code === 'string') throw error;
    return { is: /no identity|passphrase/.test(String(error)) ? 'wrong-passphrase' : 'damaged' };
  } finally {
    source.destroy();
  }
};
