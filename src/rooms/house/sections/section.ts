import type { z } from 'zod';
import type { Studio } from '../../../domain/house/studio.js';
import type { Decimal } from '../../../domain/kernel/decimal.js';
import type { Money } from '../../../domain/kernel/money.js';
import { percentOfShare, type Share } from '../../../domain/kernel/share.js';
import type { FieldKit } from '../../../web/fields/kits.js';
import { moneyForField } from '../../../web/words/amounts.js';

/** Shows values as form fields or as JSON; the other half of a FieldKit. */
export type ShowKit = {
  money(amount: Money | undefined): string;
  share(share: Share): string;
  number(value: Decimal | number): string;
  yesNo(is: boolean): string | boolean;
};

export const typedShow = (locale: string): ShowKit => ({
  money: (amount) => (amount ? moneyForField(amount, locale) : ''),
  share: percentOfShare,
  number: String,
  yesNo: (is) => (is ? 'yes' : ''),
});

export const sentShow: ShowKit = {
  money: (amount) => amount?.toString() ?? '',
  share: (share) => share.toFixed(),
  number: String,
  yesNo: (is) => is,
};

/** One subject of the house: its answers, how they are read and shown, and the page that asks them. */
export type Section = {
  readonly path: string;
  /** Where its template lies below `templates/house`, if not right there. */
  readonly folder?: string;
  readonly title: string;
  /** What stands in the house's table of contents beside the title. */
  readonly summary: (studio: Studio) => string;
  readonly values: (studio: Studio, show: ShowKit) => Record<string, string | boolean>;
  /** Reads what was said and gives the house as it then stands. */
  readonly schema: (kit: FieldKit, studio: Studio) => z.ZodType<Studio>;
  /** What the page needs beside its form: options, sentences. */
  readonly words: (studio: Studio) => object;
};
