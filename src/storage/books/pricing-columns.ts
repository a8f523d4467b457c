import type { Certainty, DepositRule, PricingChoices } from '../../domain/house/studio.js';
import { Decimal } from '../../domain/kernel/decimal.js';
import { Money } from '../../domain/kernel/money.js';

/** The columns that hold pricing choices, the same for the studio and for a commission. */
export type PricingColumns = {
  certainty: string;
  profit_basis: string;
  profit_share: string;
  handling_share: string;
  minimum_charge: number | null;
  rush_share: string;
  rush_on: string;
  round_to: number;
  deposit_rule: string;
  deposit_share: string;
};

export const pricingOf = (row: PricingColumns, currency: string): PricingChoices => ({
  certainty: row.certainty as Certainty,
  profitBasis: row.profit_basis as 'margin' | 'markup',
  profitShare: new Decimal(row.profit_share),
  handlingShare: new Decimal(row.handling_share),
  minimumCharge: row.minimum_charge === null ? undefined : Money.ofMinor(row.minimum_charge, currency),
  rushShare: new Decimal(row.rush_share),
  rushOn: row.rush_on as 'labour' | 'price',
  roundTo: Money.ofMinor(row.round_to, currency),
  depositRule: row.deposit_rule as DepositRule,
  depositShare: new Decimal(row.deposit_share),
});

export const pricingColumns = (pricing: PricingChoices): PricingColumns => ({
  certainty: pricing.certainty,
  profit_basis: pricing.profitBasis,
  profit_share: pricing.profitShare.toFixed(),
  handling_share: pricing.handlingShare.toFixed(),
  minimum_charge: pricing.minimumCharge?.minor ?? null,
  rush_share: pricing.rushShare.toFixed(),
  rush_on: pricing.rushOn,
  round_to: pricing.roundTo.minor,
  deposit_rule: pricing.depositRule,
  deposit_share: pricing.depositShare.toFixed(),
});
