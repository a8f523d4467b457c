import { open } from 'node:fs/promises';
import { Zip, ZipDeflate, ZipPassThrough } from 'fflate';
import { Invalid } from '../../../domain/kernel/errors.js';

/** The plain zip format counts in 32 bits. */
const MOST_BYTES = 4_000_000_000;

/** A file that is being put into an archive, piece by piece. */
export type ZippedFile = { write(piece: string | Uint8Array): Promise<void>; end(): Promise<void> };

/** An archive that is written as it comes, never held in memory. */
export type ZipFile = {
  /** @param squeezed false for what is squeezed already, such as a PDF or a photograph */
  begin(name: string, squeezed?: boolean): ZippedFile;
  whole(name: string, bytes: string | Uint8Array, squeezed?: boolean): Promise<void>;
};

/**
 * Writes an archive into a new file, for its owner's eyes only.
 *
 * @throws Invalid beyond 4 GB, which the format does not hold
 */
export const writeZip = async (to: string, fill: (zip: ZipFile) => Promise<void>): Promise<void> => {
  const file = await open(to, 'wx', 0o600);
  let [pieces, failure, size] = [[] as Uint8Array[], undefined as Error | undefined, 0];
  const zip = new Zip((error, piece) => {
    if (error) failure = error;
    else pieces.push(piece);
  });
  const flush = async (): Promise<void> => {
    if (failure) throw failure;
    const now = pieces;
    pieces = [];
    for (const piece of now) {
      size += piece.length;
      if (size > MOST_BYTES)
        throw new Invalid(
          'This comes to more than 4 GB, more than an archive of this kind holds. Make a backup instead.',
        );
      await file.writeFile(piece);
    }
  };
  const begin: ZipFile['begin'] = (name, squeezed = true) => {
    const entry = squeezed ? new ZipDeflate(name, { level: 6 }) : new ZipPassThrough(name);
    zip.add(entry);
    return {
      write: async (piece) => {
        entry.push(typeof piece === 'string' ? Buffer.from(piece) : piece);
        await flush();
      },
      end: async () => {
        entry.push(new Uint8Array(0), true);
        await flush();
      },
    };
  };
  try {
    await fill({
      begin,
      whole: async (name, bytes, squeezed) => {
        const entry = begin(name, squeezed);
        await entry.write(bytes);
        await entry.end();
      },
    });
    zip.end();
    await flush();
    await file.sync();
  } finally {
    await file.close();
  }
};
