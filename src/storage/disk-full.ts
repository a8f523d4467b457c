import { Trouble } from '../domain/kernel/errors.js';

/** No room left, as SQLite, PostgreSQL and the file system say it. */
const CODES = ['SQLITE_FULL', '53100', 'ENOSPC', 'EDQUOT'];

const isDiskFull = (error: unknown): boolean => {
  const { code, driverError } = (error ?? {}) as { code?: string; driverError?: { code?: string } };
  return CODES.includes(driverError?.code ?? '') || CODES.includes(code ?? '');
};

/** The disk is full: nothing of the act was kept. */
class DiskFull extends Trouble {
  constructor() {
    super(
      'no-room',
      'disk-full',
      'The disk is full, so nothing of this was kept. Make room on the disk, then do it again.',
    );
  }
}

/** Says in words that the disk is full; any other error goes on as it is. */
export const inWordsWhereFull = async <T>(work: () => Promise<T>): Promise<T> => {
  try {
    return await work();
  } catch (error) {
    throw isDiskFull(error) ? new DiskFull() : error;
  }
};
