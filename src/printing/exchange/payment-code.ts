import { encode } from 'uqr';
import { Invalid } from '../../domain/kernel/errors.js';
import { SafePicture } from '../templates/safe-picture.js';
import { onOneLine } from './characters.js';

/** Light modules around the code, as ISO/IEC 18004 asks. */
const QUIET = 4;
const LARGEST_VERSION = 13;

/** The dark modules as one path: each run of a row is one flat rectangle. */
const pathOf = (rows: readonly (readonly boolean[])[]): string =>
  rows
    .flatMap((row, y) =>
      row.map((dark, x) => {
        if (!dark || row[x - 1]) return '';
        let end = x;
        while (row[end]) end += 1;
        return `M${x + QUIET} ${y + QUIET}h${end - x}v1h${x - end}z`;
      }),
    )
    .join('');

const escaped = (text: string): string =>
  onOneLine(text).replace(
    /[&<>"]/g,
    (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[sign] ?? sign,
  );

/**
 * The payment code of a paper as a picture: error correction M, at most version 13, black on white.
 *
 * @param payload of epcPayload in the domain
 * @param label what the picture is, for readers who do not see it
 * @param side length of its side on paper, quiet zone included
 * @throws Invalid when the payload does not fit
 * @see EPC069-12; ISO/IEC 18004; test/printing/exchange/payment-code.test.ts
 */
export const paymentCode = (payload: string, label: string, side: `${number}mm` = '32mm'): SafePicture => {
  let rows: boolean[][];
  try {
    rows = encode([...new TextEncoder().encode(payload)], {
      ecc: 'M',
      boostEcc: false,
      maxVersion: LARGEST_VERSION,
      border: 0,
    }).data;
  } catch {
    throw new Invalid('This is too long for a payment code.');
  }
  const size = rows.length + 2 * QUIET;
  return SafePicture.fromOwnDrawing(
    `<svg xmlns="http://www.w3.org/2000/svg" class="payment-code" role="img" aria-label="${escaped(label)}" ` +
      `width="${side}" height="${side}" viewBox="0 0 ${size} ${size}" shape-rendering="crispEdges">` +
      `<path fill="#fff" d="M0 0h${size}v${size}h${-size}z"/><path fill="#000" d="${pathOf(rows)}"/></svg>`,
  );
};
