import type { Sheet, SheetFormat } from '../browser/sheet.js';
import type { Templates } from '../templates/templates.js';
import { type Face, inlinedFaces } from './inlined-faces.js';

const text: Face = { family: 'Source Serif 4', weight: 400, style: 'normal' };
const italic: Face = { family: 'Source Serif 4', weight: 400, style: 'italic' };

/**
 * A small paper of words that is handed over: a card, a slip, a short letter.
 *
 * @param template a whole page of its own, with its style
 * @param footer words for the foot of the sheet
 * @param model words only
 */
export const printedSlip = (
  templates: Templates,
  template: string,
  format: SheetFormat,
  footer: string,
  model: object,
): { readonly html: string; readonly sheet: Sheet } => {
  const html = templates.renderBare(template, model);
  return {
    // Base64 and quotation marks would not survive a template's escaping.
    html: html.replace('</head>', () => `<style>${inlinedFaces([text, italic], html)}</style></head>`),
    sheet: { format, footerWords: footer },
  };
};
