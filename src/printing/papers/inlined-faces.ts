import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

/** One cut of one family, as the papers' style sheets ask for it. */
export type Face = {
  readonly family: 'Source Serif 4' | 'Source Sans 3';
  readonly weight: 400 | 600;
  readonly style: 'normal' | 'italic';
};

const always = ['latin', 'latin-ext'];
const resolve = createRequire(import.meta.url).resolve;

type Subset = { readonly name: string; readonly range: string; readonly holds: (sign: number) => boolean };

const rangeTest = (range: string): ((sign: number) => boolean) => {
  const spans = range.split(',').map((span) => {
    const [from, to] = span.replace('U+', '').split('-');
    return [Number.parseInt(from ?? '', 16), Number.parseInt(to ?? from ?? '', 16)] as const;
  });
  return (sign) => spans.some(([from, to]) => sign >= from && sign <= to);
};

const kept = new Map<string, unknown>();

const once = <T>(key: string, make: () => T): T => {
  if (!kept.has(key)) kept.set(key, make());
  return kept.get(key) as T;
};

const folderOf = (family: string): string =>
  dirname(resolve(`@fontsource/${family.toLowerCase().replaceAll(' ', '-')}/package.json`));

const subsetsOf = (family: string): Subset[] =>
  once(`subsets of ${family}`, () => {
    const ranges = JSON.parse(readFileSync(join(folderOf(family), 'unicode.json'), 'utf8')) as Record<
      string,
      string
    >;
    return Object.entries(ranges).map(([name, range]) => ({ name, range, holds: rangeTest(range) }));
  });

const rule = (face: Face, subset: Subset): string =>
  once(`${face.family} ${face.weight} ${face.style} ${subset.name}`, () => {
    const file = `${face.family.toLowerCase().replaceAll(' ', '-')}-${subset.name}-${face.weight}-${face.style}.woff2`;
    const bytes = readFileSync(join(folderOf(face.family), 'files', file)).toString('base64');
    return (
      `@font-face{font-family:"${face.family}";font-style:${face.style};font-weight:${face.weight};` +
      `src:url(data:font/woff2;base64,${bytes}) format("woff2");unicode-range:${subset.range}}`
    );
  });

/**
 * The faces as style rules with their bytes inside, so that nothing is fetched. Latin always; Greek,
 * Cyrillic and Vietnamese only when the text has such a sign; other scripts fall to the machine's own fonts.
 */
export const inlinedFaces = (faces: readonly Face[], text: string): string => {
  const signs = new Set([...text].map((sign) => sign.codePointAt(0) ?? 0).filter((sign) => sign > 0x17f));
  return faces
    .flatMap((face) =>
      subsetsOf(face.family)
        .filter(({ name, holds }) => always.includes(name) || [...signs].some(holds))
        .map((subset) => rule(face, subset)),
    )
    .join('\n');
};
