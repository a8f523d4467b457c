/** What may be written to a log of a fault of the program. */
export type FaultWords = { readonly name: string; readonly message: string; readonly stack: string };

type OfTheDatabase = { readonly driverError: { readonly code?: string; readonly message?: string } };

const isOfTheDatabase = (error: object): error is OfTheDatabase => 'driverError' in error;

/** PostgreSQL repeats a value it could not read (class 22) and the row that broke a rule (class 23). @see its manual, appendix A */
const repeatsValues = (code: string): boolean => /^2[23]/.test(code);

/**
 * A fault without what people had typed: TypeORM's errors carry every parameter of the statement, and the message of a
 * database may repeat a value. Other people's measurements have no place in a log.
 */
export const faultWords = (error: unknown): FaultWords => {
  if (!(error instanceof Error)) return { name: 'Thrown', message: typeof error, stack: '' };
  const stack = stackOf(error);
  if (!isOfTheDatabase(error)) return { name: error.name, message: error.message.slice(0, 300), stack };
  const { code = 'no code', message = '' } = error.driverError;
  const said = repeatsValues(code) ? message.replaceAll(/"[^"]*"|\([^)]*\)/g, '…') : message;
  return { name: error.name, message: `${code}: ${said}`.slice(0, 300), stack };
};

/** The lines that name places in the program; the message before them may have several lines of its own. */
const stackOf = ({ stack = '' }: Error): string =>
  stack
    .split('\n')
    .filter((line) => /^\s+at /.test(line))
    .slice(0, 12)
    .join('\n');
