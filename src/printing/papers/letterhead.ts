import { Invalid } from '../../domain/kernel/errors.js';
import type { Accent } from '../templates/page-model.js';

/** The head of every paper. Every word is ready to print; '' and [] stand for "not shown". */
export type Letterhead = {
  readonly studio: string;
  /** One line under the name, such as "Bespoke tailoring, cut and made by hand". */
  readonly strapline: string;
  /** One to three letters that stand in a ring above the name when there is no logo. */
  readonly monogram: string;
  /** A PNG, JPEG, WebP or SVG picture as a data address; nothing else is placed. */
  readonly logo: string;
  /** What the logo shows, for those who do not see it. */
  readonly logoWords: string;
  readonly address: readonly string[];
  /** Telephone, mail, web: in words, nothing is linked. */
  readonly contacts: readonly string[];
  /** Each with its own words: "VAT registration GB 123 4567 89". */
  readonly registrations: readonly string[];
  /** Stands small at the end of the paper. */
  readonly smallPrint: readonly string[];
  readonly accent: Accent;
};

/** As a picture an SVG runs no script and fetches nothing, whatever is in it; what is kept was looked through besides. */
const picture = /^data:image\/(png|jpeg|webp|svg\+xml);base64,[A-Za-z0-9+/]+={0,2}$/;

/**
 * The letterhead, if its logo is a picture that is carried along rather than fetched.
 *
 * @throws Invalid when the logo is an address or another kind of file
 */
export const checkedLetterhead = (letterhead: Letterhead): Letterhead => {
  if (letterhead.logo !== '' && !picture.test(letterhead.logo)) {
    throw Invalid.field(
      'logo',
      'The logo must be a PNG, JPEG, WebP or SVG picture; a paper fetches nothing.',
    );
  }
  return letterhead;
};
