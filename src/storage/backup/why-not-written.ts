import { Trouble } from '../../domain/kernel/errors.js';
import { inWordsWhereFull } from '../disk-full.js';
import { codeOf } from './sqlite-file.js';

/** The file system or SQLite says that this place cannot be written to, or is none. */
const CLOSED = [
  'EACCES',
  'EPERM',
  'EROFS',
  'ENOTDIR',
  'EEXIST',
  'ENOENT',
  'SQLITE_CANTOPEN',
  'SQLITE_READONLY',
];

/** Does the work; where the folder is full or cannot be written to, says so in words. */
export const inWordsWhereNotWritten = <T>(folder: string, work: () => Promise<T>): Promise<T> =>
  inWordsWhereFull(async () => {
    try {
      return await work();
    } catch (error) {
      if (error instanceof Trouble || !CLOSED.includes(codeOf(error))) throw error;
      throw new Trouble(
        'no-room',
        'folder-closed',
        `The folder ${folder} cannot be written to, so no backup was made. Let the program write there, or give it another folder with BACKUP_DIR.`,
      );
    }
  });
