import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

type Branch = { role?: string; children?: Branch[] };

const home = dirname(createRequire(import.meta.url).resolve('pdfjs-dist/package.json'));

const rolesOf = (branch: Branch | null): string[] =>
  branch ? [branch.role ?? '', ...(branch.children ?? []).flatMap(rolesOf)].filter(Boolean) : [];

/** What a reader of the PDF gets: text by page in lines, tags, language, outline, title, size, fonts. */
export const readPdf = async (bytes: Uint8Array) => {
  const raw = Buffer.from(bytes).toString('latin1');
  const task = getDocument({
    data: new Uint8Array(bytes),
    standardFontDataUrl: `${join(home, 'standard_fonts')}/`,
    cMapUrl: `${join(home, 'cmaps')}/`,
    verbosity: 0,
  });
  const document = await task.promise;
  const pages: string[] = [];
  const tags: string[] = [];
  let size: number[] = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number);
    const { items } = await page.getTextContent();
    pages.push(items.map((item) => ('str' in item ? item.str + (item.hasEOL ? '\n' : '') : '')).join(''));
    tags.push(...rolesOf((await page.getStructTree()) as Branch | null));
    size = page.view.slice(2).map((side) => Number(side.toFixed(0)));
  }
  const { info } = await document.getMetadata();
  const facts = info as { Title?: string; Language?: string };
  const outline = ((await document.getOutline()) ?? []).map((entry) => entry.title);
  const marks = await document.getMarkInfo();
  await task.destroy();
  return {
    pages,
    tags,
    size,
    outline,
    title: facts.Title,
    language: facts.Language ?? '',
    isTagged: marks?.Marked === true && raw.includes('/StructTreeRoot'),
    fonts: [
      ...new Set([...raw.matchAll(/\/BaseFont\s*\/([A-Z]{6}\+[\w-]+|[\w-]+)/g)].map((match) => match[1])),
    ],
    embedded: (raw.match(/\/FontFile[23]? /g) ?? []).length,
  };
};
