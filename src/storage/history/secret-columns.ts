/**
 * What is never changed back by undo: a revoked token or an old passphrase must not come to life again, and a photograph
 * whose consent was withdrawn is gone.
 */
const NEVER_TAKEN_BACK = new Set([
  'account',
  'api_token',
  'paired_phone',
  'pairing_code',
  'calendar_key',
  'photo',
  'photo_picture',
]);

/** What is never written to the history, not even hashed: secrets, and pictures of people. */
const SECRET = new Set(['passphrase_hash', 'secret_hash', 'picture_bytes', 'small_bytes']);

export const isNeverTakenBack = (table: string): boolean => NEVER_TAKEN_BACK.has(table);

export const isSecret = (column: string): boolean => SECRET.has(column);

/** A row as the history may keep it. */
export const withoutSecrets = <R extends object>(row: R): Partial<R> =>
  Object.fromEntries(Object.entries(row).filter(([column]) => !isSecret(column))) as Partial<R>;
