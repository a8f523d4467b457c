import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import type { DataHome } from '../storage/connection/data-source.js';

/** Everything the program takes from its surroundings, in one place. */
export type Config = {
  readonly mode: 'studio' | 'demo';
  readonly fresh: boolean;
  readonly port: number;
  readonly host: string;
  readonly dataDir: string;
  readonly home: DataHome;
  /** Where the backups lie: beside the data unless said otherwise, also where the data itself lives in PostgreSQL. */
  readonly backupDir: string;
  /** Seals every backup; said in the surroundings only, written down nowhere. */
  readonly backupPassphrase: string | undefined;
  readonly logLevel: 'info' | 'warn' | 'error' | 'silent';
  readonly zone: string;
  readonly tls: { readonly cert: string; readonly key: string } | undefined;
  readonly templates: string;
};

const isZone = (zone: string): boolean => {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: zone }).resolvedOptions().timeZone !== '';
  } catch {
    return false;
  }
};

const empty = (value: unknown): unknown => (typeof value === 'string' ? value.trim() || undefined : value);

const oneOf = <const W extends readonly [string, ...string[]]>(words: W) =>
  z.enum(words, `must be ${words.join(' or ')}`);

const PORT = 'must be a whole number from 0 to 65535';

const Surroundings = z.object({
  BASTINGS_MODE: z.preprocess(empty, oneOf(['studio', 'demo']).default('studio')),
  BASTINGS_FRESH: z.preprocess(empty, oneOf(['0', '1']).default('0')),
  PORT: z.preprocess(
    empty,
    z
      .string()
      .regex(/^\d{1,5}$/, PORT)
      .transform(Number)
      .pipe(z.number().max(65535, PORT))
      .default(4410),
  ),
  HOST: z.preprocess(empty, z.string().default('127.0.0.1')),
  DATA_DIR: z.preprocess(empty, z.string().default('data/studio')),
  BACKUP_DIR: z.preprocess(empty, z.string().optional()),
  // Taken letter by letter: another program must open the backup with what stands here.
  BACKUP_PASSPHRASE: z
    .string()
    .refine((said) => said === '' || said.length >= 12, 'must have at least 12 letters')
    .refine((said) => said === said.trim(), 'must not begin or end with a space')
    .optional(),
  DATABASE_URL: z.preprocess(
    empty,
    z
      .string()
      .regex(/^postgres(ql)?:\/\//, 'must begin with postgres://')
      .optional(),
  ),
  TIME_ZONE: z.preprocess(
    empty,
    z.string().refine(isZone, 'is not a time zone such as Europe/Dublin').optional(),
  ),
  LOG_LEVEL: z.preprocess(empty, oneOf(['info', 'warn', 'error', 'silent']).default('info')),
  TLS_CERT: z.preprocess(empty, z.string().optional()),
  TLS_KEY: z.preprocess(empty, z.string().optional()),
});

/** The configuration cannot be used; `message` lists everything that is wrong with it. */
export class ConfigFault extends Error {}

/**
 * Reads the configuration.
 *
 * @throws ConfigFault that names every variable at fault, not only the first
 */
export const readConfig = (environment: NodeJS.ProcessEnv, root = process.cwd()): Config => {
  const read = Surroundings.safeParse(environment);
  const faults = read.success
    ? []
    : read.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`);
  // Asked apart, so that it is said also where something else is wrong.
  if (Boolean(empty(environment.TLS_CERT)) !== Boolean(empty(environment.TLS_KEY))) {
    faults.push('TLS_CERT, TLS_KEY: give both files or neither');
  }
  if (!read.success || faults.length > 0) {
    throw new ConfigFault(
      `The configuration cannot be used:\n${faults.map((fault) => `  ${fault}`).join('\n')}`,
    );
  }
  const said = read.data;
  const dataDir = resolve(root, said.DATA_DIR);
  return {
    mode: said.BASTINGS_MODE,
    fresh: said.BASTINGS_FRESH === '1',
    port: said.PORT,
    host: said.HOST,
    dataDir,
    home: said.DATABASE_URL
      ? { kind: 'postgres', url: said.DATABASE_URL }
      : { kind: 'sqlite', file: join(dataDir, 'bastings.sqlite') },
    backupDir: said.BACKUP_DIR ? resolve(root, said.BACKUP_DIR) : join(dataDir, 'backups'),
    backupPassphrase: said.BACKUP_PASSPHRASE || undefined,
    logLevel: said.LOG_LEVEL,
    zone: said.TIME_ZONE ?? new Intl.DateTimeFormat().resolvedOptions().timeZone,
    tls: said.TLS_CERT && said.TLS_KEY ? { cert: said.TLS_CERT, key: said.TLS_KEY } : undefined,
    templates: fileURLToPath(new URL('../../templates', import.meta.url)),
  };
};

/** Can other computers reach it, with nothing to hide what passes between? */
export const isOverheard = ({ host, tls }: Config): boolean =>
  tls === undefined && !['127.0.0.1', '::1', 'localhost'].includes(host);

/** What is in force, one a line, without secrets. */
export const configWords = (config: Config): string[] => [
  `data: ${config.home.kind === 'sqlite' ? config.home.file : 'PostgreSQL by DATABASE_URL'}`,
  `backups: ${config.backupDir}${config.backupPassphrase ? ', sealed with the passphrase' : ''}`,
  `listens on: ${config.host} port ${config.port}${config.tls ? ' with TLS' : ''}`,
  `time zone: ${config.zone}`,
];
