import type { EarlierInvoice, Paper } from '../../../domain/papers/model/paper.js';
import { isIban } from '../../../domain/papers/payment/iban.js';
import { accountNumber, CORE_INVOICE, invoiceFacts, paymentCode } from '../invoice-facts.js';
import { branch, leaf, stem, type XmlElement, xmlOf } from '../xml.js';
import { dateElement, documentAllowances, lineItem, monetarySummation, taxGroups } from './cii-amounts.js';
import { buyerTradeParty, sellerTradeParty } from './cii-parties.js';

const STANDARD = 'urn:un:unece:uncefact:data:standard';

/** The schema lets a paper cite one earlier invoice: the latest. All of them are named in a note where there are more. */
const citedOne = (earlier: readonly EarlierInvoice[]): EarlierInvoice | undefined =>
  earlier.reduce<EarlierInvoice | undefined>(
    (latest, each) => ((each['BT-26'] ?? '') >= (latest?.['BT-26'] ?? '') ? each : latest),
    undefined,
  );

const citedAll = (earlier: readonly EarlierInvoice[]): string | undefined =>
  earlier.length < 2
    ? undefined
    : `Earlier invoices: ${earlier
        .map((each) => (each['BT-26'] ? `${each['BT-25']} (${each['BT-26']})` : each['BT-25']))
        .join('; ')}`;

const paymentMeans = (paper: Paper): XmlElement | undefined => {
  const terms = paper['BG-16'];
  if (!terms || !Object.values(terms).some((each) => each?.trim())) return undefined;
  const account = accountNumber(paper);
  const iban = account !== undefined && isIban(account);
  return branch(
    'ram:SpecifiedTradeSettlementPaymentMeans',
    leaf('ram:TypeCode', paymentCode(paper)),
    leaf('ram:Information', terms['BT-82']),
    branch(
      'ram:PayeePartyCreditorFinancialAccount',
      leaf('ram:IBANID', iban ? account : undefined),
      leaf('ram:AccountName', terms['BT-85']),
      leaf('ram:ProprietaryID', iban ? undefined : account),
    ),
    branch('ram:PayeeSpecifiedCreditorFinancialInstitution', leaf('ram:BICID', terms['BT-86'])),
  );
};

const settlement = (paper: Paper): XmlElement => {
  const earlier = citedOne(paper['BG-3'] ?? []);
  return stem(
    'ram:ApplicableHeaderTradeSettlement',
    {},
    leaf('ram:PaymentReference', paper['BG-16']?.['BT-83']),
    leaf('ram:InvoiceCurrencyCode', paper['BT-5']),
    paymentMeans(paper),
    ...taxGroups(paper),
    branch(
      'ram:BillingSpecifiedPeriod',
      dateElement('ram:StartDateTime', paper['BT-73']),
      dateElement('ram:EndDateTime', paper['BT-74']),
    ),
    ...documentAllowances(paper),
    branch(
      'ram:SpecifiedTradePaymentTerms',
      leaf('ram:Description', paper['BT-20']),
      dateElement('ram:DueDateDateTime', paper['BT-9']),
    ),
    monetarySummation(paper),
    branch(
      'ram:InvoiceReferencedDocument',
      leaf('ram:IssuerAssignedID', earlier?.['BT-25']),
      dateElement('ram:FormattedIssueDateTime', earlier?.['BT-26'], 'qdt:DateTimeString'),
    ),
  );
};

const delivery = (paper: Paper): XmlElement =>
  stem(
    'ram:ApplicableHeaderTradeDelivery',
    {},
    branch('ram:ShipToTradeParty', branch('ram:PostalTradeAddress', leaf('ram:CountryID', paper['BT-80']))),
    branch('ram:ActualDeliverySupplyChainEvent', dateElement('ram:OccurrenceDateTime', paper['BT-72'])),
  );

/**
 * An issued paper as a Cross Industry Invoice, D16B.
 *
 * Elements stand in the order of the schema; amounts and units as in {@link ublOf}. The schema takes one earlier invoice:
 * the latest is cited, and where there are more a note names them all.
 *
 * @param paper issued, so that it has passed the gate
 * @returns XML text in UTF-8
 * @throws Invalid when the paper is no invoice, has no number, no date or no line
 * @see EN 16931-3-3 (syntax binding); UN/CEFACT SCRDM Cross Industry Invoice D16B; test/printing/exchange/cii.test.ts
 */
export const ciiOf = (paper: Paper): string => {
  const { number, issued, code, lines } = invoiceFacts(paper);
  return xmlOf(
    stem(
      'rsm:CrossIndustryInvoice',
      {
        'xmlns:rsm': `${STANDARD}:CrossIndustryInvoice:100`,
        'xmlns:qdt': `${STANDARD}:QualifiedDataType:100`,
        'xmlns:ram': `${STANDARD}:ReusableAggregateBusinessInformationEntity:100`,
        'xmlns:udt': `${STANDARD}:UnqualifiedDataType:100`,
      },
      branch(
        'rsm:ExchangedDocumentContext',
        branch('ram:GuidelineSpecifiedDocumentContextParameter', leaf('ram:ID', CORE_INVOICE)),
      ),
      branch(
        'rsm:ExchangedDocument',
        leaf('ram:ID', number),
        leaf('ram:TypeCode', code),
        dateElement('ram:IssueDateTime', issued),
        branch('ram:IncludedNote', leaf('ram:Content', paper['BT-22'])),
        branch('ram:IncludedNote', leaf('ram:Content', citedAll(paper['BG-3'] ?? []))),
      ),
      stem(
        'rsm:SupplyChainTradeTransaction',
        {},
        ...lines.map(lineItem),
        stem(
          'ram:ApplicableHeaderTradeAgreement',
          {},
          leaf('ram:BuyerReference', paper['BT-10']),
          sellerTradeParty(paper['BG-4']),
          buyerTradeParty(paper['BG-7']),
          branch('ram:BuyerOrderReferencedDocument', leaf('ram:IssuerAssignedID', paper['BT-13'])),
        ),
        delivery(paper),
        settlement(paper),
      ),
    ),
  );
};
