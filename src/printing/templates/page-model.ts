import type { SafePicture } from './safe-picture.js';

/** The eight rooms of the workroom, and the pages that stand in none (signing in, a refusal). */
export type Room =
  | 'bench'
  | 'clients'
  | 'commissions'
  | 'cloth-room'
  | 'papers'
  | 'lessons'
  | 'rates'
  | 'house'
  | 'none';

/** The inks a studio may choose for its accent; tokens.css holds the colours, checked for contrast. */
export type Accent = 'madder' | 'indigo' | 'bottle' | 'walnut' | 'slate';

export interface Link {
  text: string;
  href: string;
}

/** A form that is one button. */
export interface Press {
  action: string;
  text: string;
  /** The once-only key: a second press makes no second record. */
  once?: string;
  /** Says what the button does where the visible text alone would not, e.g. "Undo: chest changed". */
  label?: string;
  /** Further hidden values. */
  values?: Record<string, string>;
}

export interface Notice {
  text: string;
  undo?: Press;
}

export interface FieldError {
  /** Empty for an error of the whole form. */
  field: string;
  text: string;
}

/** Something kept only after "is that right?" has been answered. */
export interface FieldQuestion {
  field: string;
  text: string;
  /** Name of the checkbox that answers it; its value is `yes`. */
  confirmName: string;
}

export interface FormModel {
  action: string;
  method: 'post';
  /** The once-only key, sent hidden as `once`. */
  once: string;
  /** The version that was read, sent hidden as `version`. */
  version?: string;
  /** What stands in each field, as typed. */
  values: Record<string, string>;
  errors: FieldError[];
  /** True when a sign-in ran out in mid-form and the form is given back filled. */
  kept?: boolean;
  /** What another person saved meanwhile, by field, shown beside the field. */
  other?: Record<string, string>;
  questions?: FieldQuestion[];
  /** Keeps field ids apart where two forms on one page share a name. */
  idPrefix?: string;
}

/** What every page gives its layout. Everything else in a page's model is words for its own template. */
export interface PageModel {
  title: string;
  /** What the browser's tab, history and bookmarks say where the title itself names somebody: nobody's name stands there. */
  tab?: string;
  room: Room;
  /** The studio's name, as it stands on its letterhead. */
  studio: string;
  /** Without it the rooms and the find form are not shown. */
  signedInAs?: string;
  /** The rooms they may enter; all where nobody says so. */
  mayEnter?: readonly Room[];
  nonce: string;
  accent?: Accent;
  /** BCP 47, `en` when absent. */
  language?: string;
  /** `off` switches the single-letter keys off. */
  keys?: 'on' | 'off';
  crumbs?: Link[];
  notice?: Notice;
  /** The draft that waits while something is mended for it. */
  mending?: Link;
  /** The page's form, or, of several, the one that was refused. */
  form?: FormModel;
  /** What was looked for, on the page of what was found. */
  find?: string;
  [word: string]: unknown;
}

/** What may stand in a model: words and lists of words; no dates, no money, no class but a picture. */
export type Word = string | number | boolean | SafePicture | undefined | Word[] | { [name: string]: Word };
