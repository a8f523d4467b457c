/** The sizes a workroom prints on. */
export type SheetFormat = 'A4' | 'Letter' | 'A5' | 'A5 landscape' | 'A6';

/** One kind of sheet: its size, and the words that stand in its margins on every page. */
export type Sheet = {
  readonly format: SheetFormat;
  /** Stands at the foot beside "n of m". */
  readonly footerWords?: string;
  /** How "n of m" is said: `{n} of {m}` unless the paper's language says otherwise. */
  readonly pageWords?: string;
  /** Stands at the head of every page but the first, where the letterhead is. */
  readonly headWords?: string;
};

type Measures = { readonly size: string; readonly margin: string; readonly text: string };

const measures: Record<SheetFormat, Measures> = {
  A4: { size: '210mm 297mm', margin: '21mm 23mm 25mm', text: '7.5pt' },
  Letter: { size: '8.5in 11in', margin: '20mm 24mm 24mm', text: '7.5pt' },
  A5: { size: '148mm 210mm', margin: '13mm 13mm 16mm', text: '7pt' },
  'A5 landscape': { size: '210mm 148mm', margin: '11mm 13mm 14mm', text: '7pt' },
  A6: { size: '105mm 148mm', margin: '8mm 8mm 11mm', text: '6.5pt' },
};

/** Any text as a CSS string: whatever is no plain letter, digit or space becomes an escape. */
const cssString = (text: string): string => {
  const safe = [...text].map((sign) =>
    /[A-Za-z0-9 ]/.test(sign) ? sign : `\\${(sign.codePointAt(0) ?? 0xfffd).toString(16)} `,
  );
  return `"${safe.join('')}"`;
};

/** The number of the page as CSS content: counters between words. */
const pageContent = (words: string): string =>
  words
    .split(/(\{[nm]\})/)
    .filter((part) => part !== '')
    .map((part) => (part === '{n}' ? 'counter(page)' : part === '{m}' ? 'counter(pages)' : cssString(part)))
    .join(' ');

/** The page rule of a sheet: size, margins, running head, foot and "n of m". */
export const pageRule = (sheet: Sheet): string => {
  const { size, margin, text } = measures[sheet.format];
  const face = `font:400 ${text} "Source Serif 4",serif;color:#000`;
  const head = sheet.headWords
    ? `@top-left{content:${cssString(sheet.headWords)};${face};vertical-align:middle}`
    : '';
  return [
    `@page{size:${size};margin:${margin};${head}`,
    `@bottom-left{content:${cssString(sheet.footerWords ?? '')};${face};padding-top:5mm;vertical-align:top}`,
    `@bottom-right{content:${pageContent(sheet.pageWords ?? '{n} of {m}')};${face};white-space:nowrap;padding-top:5mm;vertical-align:top}}`,
    '@page:first{@top-left{content:none}}',
  ].join('');
};

/** The HTML with its page rule in its head. */
export const onSheet = (html: string, sheet: Sheet): string => {
  const rule = `<style>${pageRule(sheet)}</style>`;
  return html.includes('</head>') ? html.replace('</head>', () => `${rule}</head>`) : `${rule}${html}`;
};
