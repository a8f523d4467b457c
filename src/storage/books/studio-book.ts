import type { PaperChoices } from '../../domain/house/paper-choices.js';
import type { Overruns, QuoteKind, Studio, TaxCategory } from '../../domain/house/studio.js';
import { Decimal } from '../../domain/kernel/decimal.js';
import { NotFound } from '../../domain/kernel/errors.js';
import { StudioRow } from '../rows/house/studio.row.js';
import { keptIn, type Reading, type Writing } from '../session.js';
import { paperChoiceBook } from './house/paper-choice-book.js';
import { pricingColumns, pricingOf } from './pricing-columns.js';

const KEY = 'studio';

/** The book of the house itself: one studio. */
export const studioBook = {
  /** @throws NotFound before the first start */
  async the(reading: Reading): Promise<Studio> {
    const studio = await this.maybe(reading);
    if (!studio) throw new NotFound('studio yet');
    return studio;
  },

  async maybe(reading: Reading): Promise<Studio | undefined> {
    return keptIn(reading, 'studio', async () => {
      const row = await reading.manager.findOneBy(StudioRow, { id: KEY });
      return row ? studioOf(row, await paperChoiceBook.of(reading, KEY)) : undefined;
    });
  },

  async open(writing: Writing, studio: Omit<Studio, 'version'>): Promise<void> {
    await writing.insertForGood(StudioRow, { id: KEY, ...columnsOf(studio) });
    await paperChoiceBook.keep(writing, KEY, studio.papers);
  },

  /** @throws Stale when it has changed since `studio.version` was read */
  async correct(writing: Writing, studio: Studio): Promise<Studio> {
    const row = await writing.update(StudioRow, KEY, columnsOf(studio), studio.version);
    await paperChoiceBook.keep(writing, KEY, studio.papers);
    return studioOf(row, studio.papers);
  },
};

const studioOf = (row: StudioRow, papers: PaperChoices): Studio => ({
  version: row.version,
  identity: {
    name: row.name,
    maker: row.maker,
    address: row.address,
    country: row.country,
    email: row.email,
    phone: row.phone,
    website: row.website,
    currency: row.currency,
    zone: row.zone,
    locale: row.locale,
    lengthUnit: row.length_unit as 'cm' | 'in',
    clothUnit: row.cloth_unit as 'm' | 'yd',
  },
  tax: {
    registered: row.tax_registered,
    taxNumber: row.tax_number,
    companyNumber: row.company_number,
    category: row.tax_category as TaxCategory,
    rate: new Decimal(row.tax_rate),
    reason: row.tax_reason,
    pricesInclude: row.prices_include as 'none' | 'tax',
  },
  pricing: pricingOf(row, row.currency),
  quotes: {
    series: row.quote_series,
    days: row.quote_days,
    kind: row.quote_kind as QuoteKind,
    terms: row.terms,
    clothWording: row.cloth_wording,
    exclusions: row.exclusions,
    fittingsIncluded: row.fittings_included,
  },
  commissionSeries: row.commission_series,
  papers,
  overruns: row.overruns as Overruns,
  sheet: row.sheet as 'A4' | 'Letter',
  accent: row.accent,
  keysOn: row.keys_on,
  bareTime: row.bare_time as 'ask' | 'minutes' | 'hours',
  firstRunDone: row.first_run_done ?? undefined,
});

const columnsOf = ({
  identity,
  tax,
  pricing,
  quotes,
  ...rest
}: Omit<Studio, 'version' | 'papers'>): Omit<StudioRow, 'id' | 'version'> => ({
  name: identity.name,
  maker: identity.maker,
  address: identity.address,
  country: identity.country,
  email: identity.email,
  phone: identity.phone,
  website: identity.website,
  currency: identity.currency,
  zone: identity.zone,
  locale: identity.locale,
  length_unit: identity.lengthUnit,
  cloth_unit: identity.clothUnit,
  tax_registered: tax.registered,
  tax_number: tax.taxNumber,
  company_number: tax.companyNumber,
  tax_category: tax.category,
  tax_rate: tax.rate.toFixed(),
  tax_reason: tax.reason,
  prices_include: tax.pricesInclude,
  quote_series: quotes.series,
  commission_series: rest.commissionSeries,
  quote_days: quotes.days,
  quote_kind: quotes.kind,
  ...pricingColumns(pricing),
  terms: quotes.terms,
  cloth_wording: quotes.clothWording,
  exclusions: quotes.exclusions,
  fittings_included: quotes.fittingsIncluded,
  overruns: rest.overruns,
  sheet: rest.sheet,
  accent: rest.accent,
  keys_on: rest.keysOn,
  bare_time: rest.bareTime,
  first_run_done: rest.firstRunDone ?? null,
});
