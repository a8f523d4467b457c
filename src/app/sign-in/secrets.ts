import { createHash, randomBytes, randomInt } from 'node:crypto';
import { Algorithm, hash, verify } from '@node-rs/argon2';

/** @see OWASP Password Storage Cheat Sheet: argon2id with 19 MiB, two passes, one lane */
const COST = { algorithm: 2 satisfies Algorithm, memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;

export const hashPassphrase = (passphrase: string): Promise<string> =>
  hash(passphrase.normalize('NFKC'), COST);

export const isPassphrase = (passphrase: string, kept: string): Promise<boolean> =>
  verify(kept, passphrase.normalize('NFKC')).catch(() => false);

/** A secret that cannot be guessed: 256 bits. */
export const newSecret = (): string => randomBytes(32).toString('base64url');

/** What is kept of a secret. It has enough bits of its own that a slow hash adds nothing. */
export const secretHash = (secret: string): string => createHash('sha256').update(secret).digest('hex');

const READABLE = 'ABCDEFGHJKMNPQRSTUVWXYZ23456789';

/** A code to be read off a terminal and typed: two groups of five. */
export const newCode = (): string => {
  const letters = Array.from({ length: 10 }, () => READABLE[randomInt(READABLE.length)]).join('');
  return `${letters.slice(0, 5)}-${letters.slice(5)}`;
};
