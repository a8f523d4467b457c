import type { Sheet } from '../browser/sheet.js';
import type { Templates } from '../templates/templates.js';
import { type Face, inlinedFaces } from './inlined-faces.js';

/** A receipt for a client's own cloth as words: its condition, its worth, what was cut and what went back. */
export type IntakeReceipt = {
  readonly language: string;
  readonly studio: string;
  readonly client: string;
  /** The number that hangs on the cloth. */
  readonly code: string;
  readonly cloth: string;
  readonly date: string;
  readonly condition: readonly { readonly label: string; readonly text: string }[];
  /** What happened to it since; empty on the day it is taken in. */
  readonly since: readonly { readonly day: string; readonly what: string; readonly length: string }[];
  readonly left: string;
};

const text: Face = { family: 'Source Serif 4', weight: 400, style: 'normal' };
const italic: Face = { family: 'Source Serif 4', weight: 400, style: 'italic' };

/** The receipt ready to print on A5, with room for two signatures. */
export const printedIntakeReceipt = (
  templates: Templates,
  receipt: IntakeReceipt,
): { readonly html: string; readonly sheet: Sheet } => {
  const html = templates.renderBare('cloth-room/lots/intake-receipt', {
    ...receipt,
    anySince: receipt.since.length > 0,
  });
  return {
    // Base64 and quotation marks would not survive a template's escaping.
    html: html.replace('</head>', () => `<style>${inlinedFaces([text, italic], html)}</style></head>`),
    sheet: { format: 'A5', footerWords: `${receipt.studio} · ${receipt.code}`, headWords: receipt.code },
  };
};
