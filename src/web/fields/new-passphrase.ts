import { z } from 'zod';
import { isEasilyGuessed } from '../../domain/house/passphrase.js';

export const EASY =
  'This is among the first things a guesser tries. Take four plain words that do not belong together.';
const SHORT = 'At least 12 characters: four plain words are better than one clever one.';

const chosen = (fits: (text: string) => boolean) =>
  z
    .string()
    .max(400, 'At most 400 characters.')
    .refine((text) => fits(text) || text.length >= 12, SHORT)
    .refine((text) => fits(text) || text.length < 12 || !isEasilyGuessed(text), EASY);

/** A passphrase somebody chooses: long, not among the first guesses, and otherwise whatever they like. */
export const newPassphrase = () => chosen(() => false);

/** The same, or none. */
export const passphraseOrNone = () => chosen((text) => text === '').default('');

/** Nor is it their own name. */
export const notOnesName = <S extends z.ZodType<{ name: string; passphrase: string }>>(said: S): S =>
  said.refine(({ name, passphrase }) => passphrase.length < 12 || !isEasilyGuessed(passphrase, [name]), {
    path: ['passphrase'],
    message: EASY,
  }) as S;
