import { readXml, type XmlNode } from '../../../support/xml-tree.js';
import { found, type PlainPaper } from './plain-paper.js';

/* Where each business term stands in the Cross Industry Invoice D16B, by the syntax binding EN 16931-3-3. From memory. */

const STANDARD = 'urn:un:unece:uncefact:data:standard';
export const CII_PREFIXES = {
  [`${STANDARD}:CrossIndustryInvoice:100`]: 'rsm',
  [`${STANDARD}:QualifiedDataType:100`]: 'qdt',
  [`${STANDARD}:ReusableAggregateBusinessInformationEntity:100`]: 'ram',
  [`${STANDARD}:UnqualifiedDataType:100`]: 'udt',
};

const terms = (node: XmlNode | undefined, paths: Record<string, string>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(paths).map(([term, path]) => [term, node?.words(path)]));

/** CCYYMMDD, format 102. */
const date = (node: XmlNode | undefined, path: string): string | undefined => {
  const at = node?.one(path);
  if (!at) return undefined;
  if (at.attributes.format !== '102') throw new Error(`${path} has no format 102`);
  return at.text.replace(/^(\d{4})(\d\d)(\d\d)$/, '$1-$2-$3');
};

const ADDRESS = {
  first: 'ram:LineOne',
  second: 'ram:LineTwo',
  third: 'ram:LineThree',
  city: 'ram:CityName',
  code: 'ram:PostcodeCode',
  region: 'ram:CountrySubDivisionName',
  country: 'ram:CountryID',
};

const party = (node: XmlNode) => {
  const number = (scheme: string) =>
    node.all('ram:SpecifiedTaxRegistration/ram:ID').find((each) => each.attributes.schemeID === scheme)?.text;
  const contact = node.one('ram:DefinedTradeContact');
  return {
    id: node.words('ram:ID'),
    name: node.words('ram:Name'),
    form: node.words('ram:Description'),
    company: node.words('ram:SpecifiedLegalOrganization/ram:ID'),
    trading: node.words('ram:SpecifiedLegalOrganization/ram:TradingBusinessName'),
    person: contact?.words('ram:PersonName'),
    telephone: contact?.words('ram:TelephoneUniversalCommunication/ram:CompleteNumber'),
    mail: contact?.words('ram:EmailURIUniversalCommunication/ram:URIID'),
    address: terms(node.one('ram:PostalTradeAddress'), ADDRESS),
    vat: number('VA'),
    tax: number('FC'),
  };
};

const seller = (node: XmlNode) => {
  const read = party(node);
  return found({
    'BT-27': read.name,
    'BT-28': read.trading,
    'BT-29': read.id,
    'BT-30': read.company,
    'BT-31': read.vat,
    'BT-32': read.tax,
    'BT-33': read.form,
    'BT-41': read.person,
    'BT-42': read.telephone,
    'BT-43': read.mail,
    'BG-5': found({
      'BT-35': read.address.first,
      'BT-36': read.address.second,
      'BT-162': read.address.third,
      'BT-37': read.address.city,
      'BT-38': read.address.code,
      'BT-39': read.address.region,
      'BT-40': read.address.country,
    }),
  });
};

const buyer = (node: XmlNode) => {
  const read = party(node);
  return found({
    'BT-44': read.name,
    'BT-45': read.trading,
    'BT-46': read.id,
    'BT-47': read.company,
    'BT-48': read.vat,
    'BT-56': read.person,
    'BT-57': read.telephone,
    'BT-58': read.mail,
    'BG-8': found({
      'BT-50': read.address.first,
      'BT-51': read.address.second,
      'BT-163': read.address.third,
      'BT-52': read.address.city,
      'BT-53': read.address.code,
      'BT-54': read.address.region,
      'BT-55': read.address.country,
    }),
  });
};

const allowances = (node: XmlNode, charge: boolean, names: [string, string, string?, string?]) =>
  node
    .all('ram:SpecifiedTradeAllowanceCharge')
    .filter((each) => each.words('ram:ChargeIndicator/udt:Indicator') === String(charge))
    .map((each) =>
      found({
        [names[0]]: each.words('ram:ActualAmount'),
        [names[1]]: each.words('ram:Reason'),
        ...(names[2] ? { [names[2]]: each.words('ram:CategoryTradeTax/ram:CategoryCode') } : {}),
        ...(names[3] ? { [names[3]]: each.words('ram:CategoryTradeTax/ram:RateApplicablePercent') } : {}),
      }),
    );

const lineOf = (line: XmlNode) => {
  const settled = line.one('ram:SpecifiedLineTradeSettlement')!;
  const price = line.one('ram:SpecifiedLineTradeAgreement/ram:NetPriceProductTradePrice');
  const quantity = line.one('ram:SpecifiedLineTradeDelivery/ram:BilledQuantity');
  return found({
    'BT-126': line.words('ram:AssociatedDocumentLineDocument/ram:LineID'),
    'BT-127': line.words('ram:AssociatedDocumentLineDocument/ram:IncludedNote/ram:Content'),
    'BT-129': quantity?.text,
    'BT-130': quantity?.attributes.unitCode,
    'BT-131': settled.words('ram:SpecifiedTradeSettlementLineMonetarySummation/ram:LineTotalAmount'),
    'BG-27': allowances(settled, false, ['BT-136', 'BT-139']),
    'BG-28': allowances(settled, true, ['BT-141', 'BT-144']),
    'BT-146': price?.words('ram:ChargeAmount'),
    'BT-149': price?.words('ram:BasisQuantity'),
    'BT-151': settled.words('ram:ApplicableTradeTax/ram:CategoryCode'),
    'BT-152': settled.words('ram:ApplicableTradeTax/ram:RateApplicablePercent'),
    'BT-153': line.words('ram:SpecifiedTradeProduct/ram:Name'),
    'BT-154': line.words('ram:SpecifiedTradeProduct/ram:Description'),
  });
};

/** Reads an invoice or credit note back into its business terms; notes after the first are in `notes`. */
export const readCii = (text: string): { paper: PlainPaper; notes: string[] } => {
  const root = readXml(text, CII_PREFIXES);
  const head = root.one('rsm:ExchangedDocument')!;
  const trade = root.one('rsm:SupplyChainTradeTransaction')!;
  const agreed = trade.one('ram:ApplicableHeaderTradeAgreement')!;
  const delivered = trade.one('ram:ApplicableHeaderTradeDelivery')!;
  const settled = trade.one('ram:ApplicableHeaderTradeSettlement')!;
  const totals = settled.one('ram:SpecifiedTradeSettlementHeaderMonetarySummation');
  const means = settled.one('ram:SpecifiedTradeSettlementPaymentMeans');
  const account = means?.one('ram:PayeePartyCreditorFinancialAccount');
  const earlier = settled.one('ram:InvoiceReferencedDocument');
  const groups = settled.all('ram:ApplicableTradeTax');
  const notes = head.all('ram:IncludedNote/ram:Content').map((each) => each.text);
  const own = notes.filter((each) => !each.startsWith('Earlier invoices: '));
  const paper = found({
    ...terms(head, { 'BT-1': 'ram:ID', 'BT-3': 'ram:TypeCode' }),
    'BT-2': date(head, 'ram:IssueDateTime/udt:DateTimeString'),
    'BT-22': own[0],
    'BT-5': settled.words('ram:InvoiceCurrencyCode'),
    'BT-7': groups[0] && date(groups[0], 'ram:TaxPointDate/udt:DateString'),
    'BT-9': date(settled, 'ram:SpecifiedTradePaymentTerms/ram:DueDateDateTime/udt:DateTimeString'),
    'BT-10': agreed.words('ram:BuyerReference'),
    'BT-13': agreed.words('ram:BuyerOrderReferencedDocument/ram:IssuerAssignedID'),
    'BT-20': settled.words('ram:SpecifiedTradePaymentTerms/ram:Description'),
    'BT-72': date(delivered, 'ram:ActualDeliverySupplyChainEvent/ram:OccurrenceDateTime/udt:DateTimeString'),
    'BT-73': date(settled, 'ram:BillingSpecifiedPeriod/ram:StartDateTime/udt:DateTimeString'),
    'BT-74': date(settled, 'ram:BillingSpecifiedPeriod/ram:EndDateTime/udt:DateTimeString'),
    'BT-80': delivered.words('ram:ShipToTradeParty/ram:PostalTradeAddress/ram:CountryID'),
    'BG-3': earlier && [
      found({
        'BT-25': earlier.words('ram:IssuerAssignedID'),
        'BT-26': date(earlier, 'ram:FormattedIssueDateTime/qdt:DateTimeString'),
      }),
    ],
    'BG-4': seller(agreed.one('ram:SellerTradeParty')!),
    'BG-7': buyer(agreed.one('ram:BuyerTradeParty')!),
    'BG-16': found({
      'BT-81': means?.words('ram:TypeCode'),
      'BT-82': means?.words('ram:Information'),
      'BT-83': settled.words('ram:PaymentReference'),
      'BT-84': account?.words('ram:IBANID') ?? account?.words('ram:ProprietaryID'),
      'BT-85': account?.words('ram:AccountName'),
      'BT-86': means?.words('ram:PayeeSpecifiedCreditorFinancialInstitution/ram:BICID'),
    }),
    'BG-20': allowances(settled, false, ['BT-92', 'BT-97', 'BT-95', 'BT-96']),
    'BG-21': allowances(settled, true, ['BT-99', 'BT-104', 'BT-102', 'BT-103']),
    'BG-22': found(
      terms(totals, {
        'BT-106': 'ram:LineTotalAmount',
        'BT-107': 'ram:AllowanceTotalAmount',
        'BT-108': 'ram:ChargeTotalAmount',
        'BT-109': 'ram:TaxBasisTotalAmount',
        'BT-110': 'ram:TaxTotalAmount',
        'BT-112': 'ram:GrandTotalAmount',
        'BT-113': 'ram:TotalPrepaidAmount',
        'BT-114': 'ram:RoundingAmount',
        'BT-115': 'ram:DuePayableAmount',
      }),
    ),
    'BG-23': groups.map((each) =>
      found(
        terms(each, {
          'BT-116': 'ram:BasisAmount',
          'BT-117': 'ram:CalculatedAmount',
          'BT-118': 'ram:CategoryCode',
          'BT-119': 'ram:RateApplicablePercent',
          'BT-120': 'ram:ExemptionReason',
        }),
      ),
    ),
    'BG-25': trade.all('ram:IncludedSupplyChainTradeLineItem').map(lineOf),
  });
  return { paper, notes };
};
