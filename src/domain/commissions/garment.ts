import type { CalendarDate } from '../kernel/calendar-date.js';
import type { Decimal } from '../kernel/decimal.js';
import type { Money } from '../kernel/money.js';
import type { QuantityUnit } from '../kernel/quantity.js';
import type { Share } from '../kernel/share.js';
import type { MakingPlan } from '../making/making-plan.js';
import type { Make } from '../making/mode.js';

/** One thing to be made, altered or repaired. */
export type Garment = {
  readonly id: string;
  readonly version: number;
  readonly commissionId: string;
  /** Its place in the commission, from 1: the large number on its docket. */
  readonly place: number;
  readonly name: string;
  readonly typeId: string;
  readonly make: Make;
  readonly wearerId: string;
  readonly dueOn: CalendarDate | undefined;
  readonly notes: string;
  /** Net price set by hand; none when the sum says it. */
  readonly ownPrice: Money | undefined;
};

/** May a line be read by the client, and in which words? */
export type ShownLine = { readonly shownToClient: boolean; readonly clientWording: string };

/** What stash is charged at. */
export const CHARGED_AT = ['replacement', 'cost', 'nil'] as const;
export type ChargedAt = (typeof CHARGED_AT)[number];

/** A material the garment is planned to take. */
export type MaterialLine = ShownLine & {
  readonly id: string;
  readonly version: number;
  readonly name: string;
  readonly quantity: Decimal;
  readonly unit: QuantityUnit;
  /** Money per unit in the studio's currency; may have more decimals than the currency. */
  readonly unitCost: Decimal;
  readonly wasteShare: Share;
  readonly wasteOf: 'net' | 'gross';
  readonly handling: boolean;
  readonly replacementUnitCost: Decimal | undefined;
  readonly chargeAt: ChargedAt;
};

/** A direct expense the garment is planned to cause. */
export type ExpenseLine = ShownLine & {
  readonly id: string;
  readonly version: number;
  readonly name: string;
  readonly amount: Money;
};

/** A garment with everything its price is worked out from. */
export type PlannedGarment = {
  readonly garment: Garment;
  readonly plan: MakingPlan;
  readonly materials: readonly MaterialLine[];
  readonly expenses: readonly ExpenseLine[];
};
