import { rm } from 'node:fs/promises';
import { extname } from 'node:path';
import { Worker } from 'node:worker_threads';
import { Conflict, Invalid } from '../../../domain/kernel/errors.js';
import { type Sealed, type Sealing, workAtSeal } from './age-file.js';

const IS_BUILT = extname(import.meta.url) === '.js';

/** In a thread of its own where the program is built: deriving the key takes a second, and the body is worked through here too. */
const aside = (asked: Sealing): Promise<Sealed> => {
  if (!IS_BUILT) return workAtSeal(asked);
  const thread = new Worker(new URL('./seal-thread.js', import.meta.url), { workerData: asked });
  return new Promise<Sealed>((resolve, reject) => {
    thread.once('message', resolve);
    thread.once('error', reject);
    thread.once('exit', () => reject(new Error('The thread ended without an answer.')));
  });
};

/**
 * Seals a file, then opens what was written and compares it with what went in.
 *
 * @throws Conflict when it does not come out as it went in
 */
export const sealFile = async (
  from: string,
  to: string,
  passphrase: string,
  work?: number,
): Promise<void> => {
  const hard = work === undefined ? {} : { work };
  const went = await aside({ task: 'seal', from, to, passphrase, ...hard });
  const came = await aside({ task: 'open', from: to, to: undefined, passphrase });
  if (went.is !== 'done' || came.is !== 'done' || went.sha256 !== came.sha256)
    throw new Conflict('The sealed backup did not open again as it was. Try again.', 'not-whole');
};

/**
 * Opens a sealed file beside another name.
 *
 * @throws Invalid when the passphrase is another; Conflict when the file is damaged. Nothing is left at `to` then
 */
export const openSealed = async (from: string, to: string, passphrase: string): Promise<void> => {
  try {
    const opened = await aside({ task: 'open', from, to, passphrase });
    if (opened.is === 'wrong-passphrase')
      throw new Invalid('This is not the passphrase the backup was sealed with.', [], 'wrong-passphrase');
    if (opened.is === 'damaged') throw new Conflict('This sealed backup is damaged or cut off.', 'damaged');
  } catch (error) {
    await rm(to, { force: true });
    throw error;
  }
};
