import type { Paper } from '../../../domain/papers/model/paper.js';
import { accountNumber, CORE_INVOICE, invoiceFacts, paymentCode } from '../invoice-facts.js';
import { branch, leaf, stem, type XmlElement, xmlOf } from '../xml.js';
import { documentAllowances, lineElement, monetaryTotal, taxTotal } from './ubl-amounts.js';
import { buyerParty, sellerParty } from './ubl-parties.js';

const SCHEMA = 'urn:oasis:names:specification:ubl:schema:xsd';

/** BG-16; a credit note has no due date of its own, so BT-9 stands here. */
const paymentMeans = (paper: Paper, credit: boolean): XmlElement | undefined => {
  const terms = paper['BG-16'];
  const due = credit ? paper['BT-9'] : undefined;
  if (!due && !(terms && Object.values(terms).some((each) => each?.trim()))) return undefined;
  return branch(
    'cac:PaymentMeans',
    leaf('cbc:PaymentMeansCode', paymentCode(paper), { name: terms?.['BT-82'] }),
    leaf('cbc:PaymentDueDate', due),
    leaf('cbc:PaymentID', terms?.['BT-83']),
    branch(
      'cac:PayeeFinancialAccount',
      leaf('cbc:ID', accountNumber(paper)),
      leaf('cbc:Name', terms?.['BT-85']),
      branch('cac:FinancialInstitutionBranch', leaf('cbc:ID', terms?.['BT-86'])),
    ),
  );
};

/** The references between the head and the parties: period, order, and every earlier invoice. */
const references = (paper: Paper): (XmlElement | undefined)[] => [
  branch('cac:InvoicePeriod', leaf('cbc:StartDate', paper['BT-73']), leaf('cbc:EndDate', paper['BT-74'])),
  branch('cac:OrderReference', leaf('cbc:ID', paper['BT-13'])),
  ...(paper['BG-3'] ?? []).map((each) =>
    branch(
      'cac:BillingReference',
      branch(
        'cac:InvoiceDocumentReference',
        leaf('cbc:ID', each['BT-25']),
        leaf('cbc:IssueDate', each['BT-26']),
      ),
    ),
  ),
];

const delivery = (paper: Paper): XmlElement | undefined =>
  branch(
    'cac:Delivery',
    leaf('cbc:ActualDeliveryDate', paper['BT-72']),
    branch(
      'cac:DeliveryLocation',
      branch('cac:Address', branch('cac:Country', leaf('cbc:IdentificationCode', paper['BT-80']))),
    ),
  );

/**
 * An issued paper in the Universal Business Language 2.1: an Invoice, or a CreditNote for type 381.
 *
 * Elements stand in the order of the schema. Amounts carry the decimals of their currency, prices and quantities as many
 * as they have, units their UN/ECE Recommendation 20 code. Every earlier invoice is cited.
 *
 * @param paper issued, so that it has passed the gate
 * @returns XML text in UTF-8
 * @throws Invalid when the paper is no invoice, has no number, no date or no line
 * @see EN 16931-3-2 (syntax binding); OASIS UBL 2.1 (2013); test/printing/exchange/ubl.test.ts
 */
export const ublOf = (paper: Paper): string => {
  const { number, issued, code, lines } = invoiceFacts(paper);
  const credit = code === '381';
  const document = credit ? 'CreditNote' : 'Invoice';
  const taxPoint = leaf('cbc:TaxPointDate', paper['BT-7']);
  const note = leaf('cbc:Note', paper['BT-22']);
  return xmlOf(
    stem(
      document,
      {
        xmlns: `${SCHEMA}:${document}-2`,
        'xmlns:cac': `${SCHEMA}:CommonAggregateComponents-2`,
        'xmlns:cbc': `${SCHEMA}:CommonBasicComponents-2`,
      },
      leaf('cbc:CustomizationID', CORE_INVOICE),
      leaf('cbc:ID', number),
      leaf('cbc:IssueDate', issued),
      ...(credit
        ? [taxPoint, leaf('cbc:CreditNoteTypeCode', code), note]
        : [leaf('cbc:DueDate', paper['BT-9']), leaf('cbc:InvoiceTypeCode', code), note, taxPoint]),
      leaf('cbc:DocumentCurrencyCode', paper['BT-5']),
      leaf('cbc:BuyerReference', paper['BT-10']),
      ...references(paper),
      branch('cac:AccountingSupplierParty', sellerParty(paper['BG-4'])),
      branch('cac:AccountingCustomerParty', buyerParty(paper['BG-7'])),
      delivery(paper),
      paymentMeans(paper, credit),
      branch('cac:PaymentTerms', leaf('cbc:Note', paper['BT-20'])),
      ...documentAllowances(paper),
      taxTotal(paper),
      monetaryTotal(paper),
      ...lines.map((line) => lineElement(paper, line, credit)),
    ),
  );
};
