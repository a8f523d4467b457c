const LETTERS = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];
const PAPER_TONGUES = ['en', 'de', 'fr', 'es', 'it', 'nl'];

const inForce = (code: string): string => Intl.getCanonicalLocales(`und-${code}`)[0]?.slice(4) ?? code;

let codes: ReadonlyMap<string, string> | undefined;

/** Two letters by every name the countries have in the tongues above; asked of the runtime once, when first wanted. */
const codesByName = (): ReadonlyMap<string, string> => {
  const known = new Map<string, string>();
  for (const tongue of PAPER_TONGUES) {
    const names = new Intl.DisplayNames(tongue, { type: 'region', fallback: 'none' });
    for (const code of LETTERS.flatMap((one) => LETTERS.map((other) => one + other))) {
      const name = names.of(code);
      // A withdrawn code still has its country's name; the runtime says by which it was replaced.
      if (name && inForce(code) === code) known.set(name.toLowerCase(), code);
    }
  }
  return known;
};

/**
 * The two letters that stand for a country in an invoice's data, where the house wrote its name.
 *
 * @param typed a country as somebody wrote it: “Ireland”, “ie”, “Irland”
 * @returns ISO 3166-1 alpha-2 where the country is known, what was typed otherwise
 * @see EN 16931 BT-40 and BT-55, rule BR-CL-14; test/domain/papers/model/country.test.ts
 */
export const countryCode = (typed: string): string => {
  const text = typed.trim();
  if (/^[a-z]{2}$/i.test(text)) return inForce(text.toUpperCase());
  codes ??= codesByName();
  return codes.get(text.toLowerCase()) ?? text;
};
