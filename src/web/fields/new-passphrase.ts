import { z } from 'zod';
import { isEasilyGuessed } from '../../domain/house/passphrase.js';

/** A passphrase somebody chooses: long, not among the first guesses, and otherwise whatever they like. */
export const newPassphrase = () =>
  z
    .string()
    .min(12, 'At least 12 characters: four plain words are better than one clever one.')
    .max(400, 'At most 400 characters.')
    .refine((text) => !isEasilyGuessed(text), EASY);

export const EASY =
  'This is among the first things a guesser tries. Take four plain words that do not belong together.';
