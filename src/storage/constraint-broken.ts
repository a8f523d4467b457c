/** Foreign key and uniqueness as SQLite and PostgreSQL name them. */
const CODES = ['SQLITE_CONSTRAINT', '23503', '23505'];

/** Did the database refuse because rows refer to each other, or because there is one already? */
export const isConstraintBroken = (error: unknown): boolean =>
  CODES.includes((error as { driverError?: { code?: string } } | undefined)?.driverError?.code ?? '');
