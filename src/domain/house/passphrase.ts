/** Whole passphrases and parts of them that guessers try first. Common practice, put down from memory: no source. */
const FIRST_GUESSES =
  /password|passw0rd|passphrase|qwerty\w*|qwertz\w*|azerty|letmein|welcome|iloveyou|sunshine|princess|football|baseball|monkey|dragon|superman|trustno1|changeme|secret|admin|administrator|login|master|bastings|tailor|dressmaker|workroom|studio|sewing|owner|maker|bookkeeper/g;

/** Keys as they lie, and letters and digits as they follow. */
const ROWS = [
  'abcdefghijklmnopqrstuvwxyz',
  '01234567890',
  'qwertyuiop',
  'asdfghjkl',
  'zxcvbnm',
  '1qaz2wsx3edc4rfv',
];

const backwards = (text: string): string => [...text].reverse().join('');
const RUNS = ROWS.flatMap((row) => [row, backwards(row)]);

/** What is left once runs of four and more along a row are taken out. */
const withoutRuns = (text: string): string => {
  let left = '';
  for (let at = 0; at < text.length; ) {
    let long = 0;
    for (const row of RUNS) {
      let reach = 0;
      while (at + reach < text.length && row.includes(text.slice(at, at + reach + 1))) reach += 1;
      long = Math.max(long, reach);
    }
    if (long < 4) left += text[at];
    at += long < 4 ? 1 : long;
  }
  return left;
};

/**
 * Can a passphrase be guessed in the first tries? So it can where, once what guessers try first is taken out (names given,
 * well-known words, runs along the keys, digits, signs, repetitions), fewer than six letters are left, or where it is made of
 * fewer than five different signs.
 *
 * It asks for no kind of sign: four plain words pass, in any script.
 *
 * @param passphrase as it was typed, at least 12 characters
 * @param names of the person and of the studio, which a guesser knows
 * @returns whether it should be refused
 * @see NIST SP 800-63B 5.1.1.2 (as remembered: dictionary words, repetitive and sequential characters, names of the context);
 *   test/domain/house/passphrase.test.ts
 */
export const isEasilyGuessed = (passphrase: string, names: readonly string[] = []): boolean => {
  const plain = passphrase.normalize('NFKC').toLowerCase();
  if (new Set(plain).size < 5) return true;
  const known = names
    .flatMap((name) => name.normalize('NFKC').toLowerCase().split(/\s+/))
    .filter((word) => word.length >= 3);
  const left = known
    .reduce((so, word) => so.replaceAll(word, ' '), plain)
    .replaceAll(FIRST_GUESSES, ' ')
    .replaceAll(/(.{2,12}?)\1+/gu, '$1');
  return [...withoutRuns(left).replaceAll(/[^\p{L}\p{M}]/gu, '')].length < 6;
};
