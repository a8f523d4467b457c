import { X509Certificate } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createSecureContext } from 'node:tls';
import type { Instant } from '../domain/kernel/calendar-date.js';
import { type Config, ConfigFault } from './config.js';

type Pair = { readonly cert: Buffer; readonly key: Buffer };

/**
 * The certificate and key of the configuration, looked at before anybody is served.
 *
 * @throws ConfigFault in words: a file cannot be read, the two do not belong together, or the certificate has run out
 */
export const readCertificate = (files: NonNullable<Config['tls']>, now: Instant): Pair => {
  const cert = readOr('TLS_CERT', files.cert);
  const key = readOr('TLS_KEY', files.key);
  try {
    createSecureContext({ cert, key });
  } catch {
    throw new ConfigFault(
      'TLS_CERT, TLS_KEY: these two files are no certificate with its key. Both are text that begins with “-----BEGIN”.',
    );
  }
  const until = new Date(new X509Certificate(cert).validTo).toISOString();
  if (until < now)
    throw new ConfigFault(
      `TLS_CERT: the certificate ran out on ${until.slice(0, 10)}, so no browser would trust it. Have it renewed.`,
    );
  return { cert, key };
};

const readOr = (name: string, file: string): Buffer => {
  try {
    return readFileSync(file);
  } catch {
    throw new ConfigFault(`${name}: the file ${file} cannot be read.`);
  }
};
