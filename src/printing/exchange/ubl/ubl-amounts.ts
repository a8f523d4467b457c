import type { Decimal } from '../../../domain/kernel/decimal.js';
import type { Money } from '../../../domain/kernel/money.js';
import { QUANTITY_UNITS } from '../../../domain/kernel/quantity.js';
import type { Paper, PaperLine } from '../../../domain/papers/model/paper.js';
import type { TaxCategory } from '../../../domain/papers/tax/category.js';
import { branch, leaf, type XmlElement } from '../xml.js';

const amount = (name: string, money: Money): XmlElement | undefined =>
  leaf(name, money, { currencyID: money.currency });

const amountUnlessNought = (name: string, money: Money): XmlElement | undefined =>
  money.isZero() ? undefined : amount(name, money);

const taxCategory = (
  name: string,
  category: TaxCategory,
  rate: Decimal | undefined,
  reason?: string,
): XmlElement | undefined =>
  branch(
    name,
    leaf('cbc:ID', category),
    leaf('cbc:Percent', rate?.toFixed()),
    leaf('cbc:TaxExemptionReason', reason),
    branch('cac:TaxScheme', leaf('cbc:ID', 'VAT')),
  );

const allowanceCharge = (
  charge: boolean,
  reason: string | undefined,
  money: Money,
  tax?: XmlElement,
): XmlElement | undefined =>
  branch(
    'cac:AllowanceCharge',
    leaf('cbc:ChargeIndicator', charge),
    leaf('cbc:AllowanceChargeReason', reason),
    amount('cbc:Amount', money),
    tax,
  );

/** BG-20 and BG-21. */
export const documentAllowances = (paper: Paper): (XmlElement | undefined)[] => [
  ...paper['BG-20'].map((each) =>
    allowanceCharge(
      false,
      each['BT-97'],
      each['BT-92'],
      taxCategory('cac:TaxCategory', each['BT-95'], each['BT-96']),
    ),
  ),
  ...paper['BG-21'].map((each) =>
    allowanceCharge(
      true,
      each['BT-104'],
      each['BT-99'],
      taxCategory('cac:TaxCategory', each['BT-102'], each['BT-103']),
    ),
  ),
];

/** BT-110 and BG-23. */
export const taxTotal = (paper: Paper): XmlElement | undefined =>
  branch(
    'cac:TaxTotal',
    amount('cbc:TaxAmount', paper['BG-22']['BT-110']),
    ...paper['BG-23'].map((group) =>
      branch(
        'cac:TaxSubtotal',
        amount('cbc:TaxableAmount', group['BT-116']),
        amount('cbc:TaxAmount', group['BT-117']),
        taxCategory('cac:TaxCategory', group['BT-118'], group['BT-119'], group['BT-120']),
      ),
    ),
  );

/** BG-22; sums of nothing and what was not paid beforehand stay out. */
export const monetaryTotal = ({ 'BG-22': totals }: Paper): XmlElement | undefined =>
  branch(
    'cac:LegalMonetaryTotal',
    amount('cbc:LineExtensionAmount', totals['BT-106']),
    amount('cbc:TaxExclusiveAmount', totals['BT-109']),
    amount('cbc:TaxInclusiveAmount', totals['BT-112']),
    amountUnlessNought('cbc:AllowanceTotalAmount', totals['BT-107']),
    amountUnlessNought('cbc:ChargeTotalAmount', totals['BT-108']),
    amountUnlessNought('cbc:PrepaidAmount', totals['BT-113']),
    amountUnlessNought('cbc:PayableRoundingAmount', totals['BT-114']),
    amount('cbc:PayableAmount', totals['BT-115']),
  );

/** BG-25, in an invoice or in a credit note. */
export const lineElement = (paper: Paper, line: PaperLine, credit: boolean): XmlElement | undefined => {
  const unitCode = QUANTITY_UNITS[line['BT-130']].rec20;
  return branch(
    credit ? 'cac:CreditNoteLine' : 'cac:InvoiceLine',
    leaf('cbc:ID', line['BT-126']),
    leaf('cbc:Note', line['BT-127']),
    leaf(credit ? 'cbc:CreditedQuantity' : 'cbc:InvoicedQuantity', line['BT-129'].toFixed(), { unitCode }),
    amount('cbc:LineExtensionAmount', line['BT-131']),
    ...line['BG-27'].map((each) => allowanceCharge(false, each['BT-139'], each['BT-136'])),
    ...line['BG-28'].map((each) => allowanceCharge(true, each['BT-144'], each['BT-141'])),
    branch(
      'cac:Item',
      leaf('cbc:Description', line['BT-154']),
      leaf('cbc:Name', line['BT-153']),
      taxCategory('cac:ClassifiedTaxCategory', line['BT-151'], line['BT-152']),
    ),
    branch(
      'cac:Price',
      leaf('cbc:PriceAmount', line['BT-146'].toFixed(), { currencyID: paper['BT-5'] }),
      leaf('cbc:BaseQuantity', line['BT-149']?.toFixed(), { unitCode }),
    ),
  );
};
