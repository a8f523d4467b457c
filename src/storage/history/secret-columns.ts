/** Who may come in is never changed back by undo: a revoked token or an old passphrase must not come to life again. */
const NEVER_TAKEN_BACK = new Set(['account', 'api_token']);

/** What is never written to the history, not even hashed. */
const SECRET = new Set(['passphrase_hash', 'secret_hash']);

export const isNeverTakenBack = (table: string): boolean => NEVER_TAKEN_BACK.has(table);

export const isSecret = (column: string): boolean => SECRET.has(column);

/** A row as the history may keep it. */
export const withoutSecrets = <R extends object>(row: R): Partial<R> =>
  Object.fromEntries(Object.entries(row).filter(([column]) => !isSecret(column))) as Partial<R>;
