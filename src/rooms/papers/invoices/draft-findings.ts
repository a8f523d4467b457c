import type { PaperChoices } from '../../../domain/house/paper-choices.js';
import type { Studio } from '../../../domain/house/studio.js';
import type { Decimal } from '../../../domain/kernel/decimal.js';
import type { Money } from '../../../domain/kernel/money.js';
import { type Finding, mustMend, wantsLook } from '../../../domain/papers/finding.js';
import type { InvoiceChoices } from '../../../domain/papers/invoice/invoice-choices.js';
import { TAX_CATEGORIES, type TaxCategory } from '../../../domain/papers/tax/category.js';
import { taxOf } from '../../../web/papers/house-on-paper.js';
import { amountInWords } from '../../../web/words/amounts.js';

type Taxed = { readonly category: TaxCategory; readonly rate?: Decimal | undefined };

const isSame = (one: Taxed, other: Taxed): boolean =>
  one.category === other.category && (one.rate?.toFixed() ?? '0') === (other.rate?.toFixed() ?? '0');

const taxInWords = ({ category, rate }: Taxed): string => {
  const { words, taxed } = TAX_CATEGORIES[category];
  return taxed && rate ? `${rate.toFixed()} %` : words;
};

/** What moved since the draft was laid ready: the house's tax is another by now. */
export const taxMoved = ({ kind, lines }: InvoiceChoices, studio: Studio): Finding[] => {
  if (kind === 'credit-note') return [];
  const house = taxOf(studio);
  if (!studio.tax.registered && lines.some(({ category }) => category === 'S'))
    return [
      mustMend(
        'not-registered',
        'seller.tax',
        'The house is not registered for tax, yet a line states tax. Say in House how it stands. Or blank such a line and write it in a free one, where it states no tax.',
      ),
    ];
  const other = lines.find((line) => !isSame(line, house));
  return other
    ? [
        wantsLook(
          'tax-moved',
          'lines',
          `The house’s tax is another than on this draft: ${other.name} has ${taxInWords(other)}, the house has ${taxInWords(house)} now. What was agreed keeps its tax only where the law lets it. Is that right?`,
        ),
      ]
    : [];
};

/** Paid before (BT-113) against what is held: a paper never takes off money that nobody holds. */
export const heldFindings = (
  { kind, prepaid }: InvoiceChoices,
  held: Money,
  { treatment }: PaperChoices,
  locale: string,
): Finding[] => {
  if (kind === 'credit-note') return [];
  const amount = (money: Money): string => `${money.currency} ${amountInWords(money, locale)}`;
  if (prepaid.compare(held) > 0)
    return [
      mustMend(
        'prepaid-not-held',
        'prepaid',
        `The draft takes off ${amount(prepaid)} as paid before, and ${held.isZero() ? 'nothing' : amount(held)} is held for this commission. Put the payment down first, or take off less.`,
      ),
    ];
  const takesOff = treatment === 'payment-on-account' && (kind === 'invoice' || kind === 'final-invoice');
  return takesOff && prepaid.compare(held) < 0
    ? [
        wantsLook(
          'held-more',
          'prepaid',
          `${amount(held)} is held for this commission, and the draft takes off ${amount(prepaid)}. Is that right?`,
        ),
      ]
    : [];
};
