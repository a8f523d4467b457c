import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { Decimal } from '../../../domain/kernel/decimal.js';
import type { Money } from '../../../domain/kernel/money.js';
import { QUANTITY_UNITS } from '../../../domain/kernel/quantity.js';
import type { Paper, PaperLine } from '../../../domain/papers/model/paper.js';
import type { TaxCategory } from '../../../domain/papers/tax/category.js';
import { branch, leaf, stem, type XmlElement } from '../xml.js';

/** UNTDID 2379 code 102: CCYYMMDD. */
export const dateElement = (
  name: string,
  date: CalendarDate | undefined,
  inner = 'udt:DateTimeString',
): XmlElement | undefined => branch(name, leaf(inner, date?.replaceAll('-', ''), { format: '102' }));

const unlessNought = (name: string, money: Money): XmlElement | undefined =>
  money.isZero() ? undefined : leaf(name, money);

const tradeTax = (name: string, category: TaxCategory, rate: Decimal | undefined): XmlElement | undefined =>
  branch(
    name,
    leaf('ram:TypeCode', 'VAT'),
    leaf('ram:CategoryCode', category),
    leaf('ram:RateApplicablePercent', rate?.toFixed()),
  );

const allowanceCharge = (
  charge: boolean,
  reason: string | undefined,
  money: Money,
  tax?: XmlElement,
): XmlElement | undefined =>
  branch(
    'ram:SpecifiedTradeAllowanceCharge',
    branch('ram:ChargeIndicator', leaf('udt:Indicator', charge)),
    leaf('ram:ActualAmount', money),
    leaf('ram:Reason', reason),
    tax,
  );

/** BG-20 and BG-21. */
export const documentAllowances = (paper: Paper): (XmlElement | undefined)[] => [
  ...paper['BG-20'].map((each) =>
    allowanceCharge(
      false,
      each['BT-97'],
      each['BT-92'],
      tradeTax('ram:CategoryTradeTax', each['BT-95'], each['BT-96']),
    ),
  ),
  ...paper['BG-21'].map((each) =>
    allowanceCharge(
      true,
      each['BT-104'],
      each['BT-99'],
      tradeTax('ram:CategoryTradeTax', each['BT-102'], each['BT-103']),
    ),
  ),
];

/** BG-23, each with the tax point (BT-7) where one is given. */
export const taxGroups = (paper: Paper): (XmlElement | undefined)[] =>
  paper['BG-23'].map((group) =>
    branch(
      'ram:ApplicableTradeTax',
      leaf('ram:CalculatedAmount', group['BT-117']),
      leaf('ram:TypeCode', 'VAT'),
      leaf('ram:ExemptionReason', group['BT-120']),
      leaf('ram:BasisAmount', group['BT-116']),
      leaf('ram:CategoryCode', group['BT-118']),
      dateElement('ram:TaxPointDate', paper['BT-7'], 'udt:DateString'),
      leaf('ram:RateApplicablePercent', group['BT-119']?.toFixed()),
    ),
  );

/** BG-22; sums of nothing and what was not paid beforehand stay out. */
export const monetarySummation = ({ 'BG-22': totals, 'BT-5': currencyID }: Paper): XmlElement | undefined =>
  branch(
    'ram:SpecifiedTradeSettlementHeaderMonetarySummation',
    leaf('ram:LineTotalAmount', totals['BT-106']),
    unlessNought('ram:ChargeTotalAmount', totals['BT-108']),
    unlessNought('ram:AllowanceTotalAmount', totals['BT-107']),
    leaf('ram:TaxBasisTotalAmount', totals['BT-109']),
    leaf('ram:TaxTotalAmount', totals['BT-110'], { currencyID }),
    unlessNought('ram:RoundingAmount', totals['BT-114']),
    leaf('ram:GrandTotalAmount', totals['BT-112']),
    unlessNought('ram:TotalPrepaidAmount', totals['BT-113']),
    leaf('ram:DuePayableAmount', totals['BT-115']),
  );

/** BG-25. */
export const lineItem = (line: PaperLine): XmlElement => {
  const unitCode = QUANTITY_UNITS[line['BT-130']].rec20;
  return stem(
    'ram:IncludedSupplyChainTradeLineItem',
    {},
    branch(
      'ram:AssociatedDocumentLineDocument',
      leaf('ram:LineID', line['BT-126']),
      branch('ram:IncludedNote', leaf('ram:Content', line['BT-127'])),
    ),
    branch(
      'ram:SpecifiedTradeProduct',
      leaf('ram:Name', line['BT-153']),
      leaf('ram:Description', line['BT-154']),
    ),
    branch(
      'ram:SpecifiedLineTradeAgreement',
      branch(
        'ram:NetPriceProductTradePrice',
        leaf('ram:ChargeAmount', line['BT-146'].toFixed()),
        leaf('ram:BasisQuantity', line['BT-149']?.toFixed(), { unitCode }),
      ),
    ),
    branch(
      'ram:SpecifiedLineTradeDelivery',
      leaf('ram:BilledQuantity', line['BT-129'].toFixed(), { unitCode }),
    ),
    branch(
      'ram:SpecifiedLineTradeSettlement',
      tradeTax('ram:ApplicableTradeTax', line['BT-151'], line['BT-152']),
      ...line['BG-27'].map((each) => allowanceCharge(false, each['BT-139'], each['BT-136'])),
      ...line['BG-28'].map((each) => allowanceCharge(true, each['BT-144'], each['BT-141'])),
      branch(
        'ram:SpecifiedTradeSettlementLineMonetarySummation',
        leaf('ram:LineTotalAmount', line['BT-131']),
      ),
    ),
  );
};
