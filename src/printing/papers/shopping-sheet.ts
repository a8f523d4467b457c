import type { Sheet } from '../browser/sheet.js';
import type { Templates } from '../templates/templates.js';
import { type Face, inlinedFaces } from './inlined-faces.js';

/** One thing to buy, in words. */
export type ShoppingSheetItem = {
  readonly name: string;
  readonly length: string;
  /** Highest price for one that the quote allows. */
  readonly highest: string;
  /** Needed by. */
  readonly due: string;
  /** The commission's number and the garment's place; never a client's name. */
  readonly garment: string;
};

/** A shopping list as words, by supplier. */
export type ShoppingSheet = {
  readonly language: string;
  readonly studio: string;
  readonly date: string;
  readonly suppliers: readonly { readonly name: string; readonly items: readonly ShoppingSheetItem[] }[];
};

const text: Face = { family: 'Source Serif 4', weight: 400, style: 'normal' };
const italic: Face = { family: 'Source Serif 4', weight: 400, style: 'italic' };

/** A shopping list ready to print on A5: complete in itself, black on white. */
export const printedShoppingList = (
  templates: Templates,
  list: ShoppingSheet,
): { readonly html: string; readonly sheet: Sheet } => {
  const html = templates.renderBare('cloth-room/shopping/shopping-sheet', {
    ...list,
    any: list.suppliers.length > 0,
  });
  return {
    // Base64 and quotation marks would not survive a template's escaping.
    html: html.replace('</head>', () => `<style>${inlinedFaces([text, italic], html)}</style></head>`),
    sheet: { format: 'A5', footerWords: `${list.studio} · ${list.date}`, headWords: 'Shopping list' },
  };
};
