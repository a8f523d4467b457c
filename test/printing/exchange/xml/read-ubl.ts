import { readXml, type XmlNode } from '../../../support/xml-tree.js';
import { found, type PlainPaper } from './plain-paper.js';

/* Where each business term stands in UBL 2.1, by the syntax binding EN 16931-3-2. Paths are from memory. */

const SCHEMA = 'urn:oasis:names:specification:ubl:schema:xsd';
export const UBL_PREFIXES = {
  [`${SCHEMA}:Invoice-2`]: 'inv',
  [`${SCHEMA}:CreditNote-2`]: 'cn',
  [`${SCHEMA}:CommonAggregateComponents-2`]: 'cac',
  [`${SCHEMA}:CommonBasicComponents-2`]: 'cbc',
};

const terms = (node: XmlNode | undefined, paths: Record<string, string>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(paths).map(([term, path]) => [term, node?.words(path)]));

const registration = (party: XmlNode, vat: boolean): string | undefined =>
  party
    .all('cac:PartyTaxScheme')
    .find((each) => (each.words('cac:TaxScheme/cbc:ID') === 'VAT') === vat)
    ?.words('cbc:CompanyID');

const seller = (party: XmlNode) =>
  found({
    ...terms(party, {
      'BT-27': 'cac:PartyLegalEntity/cbc:RegistrationName',
      'BT-28': 'cac:PartyName/cbc:Name',
      'BT-29': 'cac:PartyIdentification/cbc:ID',
      'BT-30': 'cac:PartyLegalEntity/cbc:CompanyID',
      'BT-33': 'cac:PartyLegalEntity/cbc:CompanyLegalForm',
      'BT-41': 'cac:Contact/cbc:Name',
      'BT-42': 'cac:Contact/cbc:Telephone',
      'BT-43': 'cac:Contact/cbc:ElectronicMail',
    }),
    'BT-31': registration(party, true),
    'BT-32': registration(party, false),
    'BG-5': found(
      terms(party.one('cac:PostalAddress'), {
        'BT-35': 'cbc:StreetName',
        'BT-36': 'cbc:AdditionalStreetName',
        'BT-162': 'cac:AddressLine/cbc:Line',
        'BT-37': 'cbc:CityName',
        'BT-38': 'cbc:PostalZone',
        'BT-39': 'cbc:CountrySubentity',
        'BT-40': 'cac:Country/cbc:IdentificationCode',
      }),
    ),
  });

const buyer = (party: XmlNode) =>
  found({
    ...terms(party, {
      'BT-44': 'cac:PartyLegalEntity/cbc:RegistrationName',
      'BT-45': 'cac:PartyName/cbc:Name',
      'BT-46': 'cac:PartyIdentification/cbc:ID',
      'BT-47': 'cac:PartyLegalEntity/cbc:CompanyID',
      'BT-56': 'cac:Contact/cbc:Name',
      'BT-57': 'cac:Contact/cbc:Telephone',
      'BT-58': 'cac:Contact/cbc:ElectronicMail',
    }),
    'BT-48': registration(party, true),
    'BG-8': found(
      terms(party.one('cac:PostalAddress'), {
        'BT-50': 'cbc:StreetName',
        'BT-51': 'cbc:AdditionalStreetName',
        'BT-163': 'cac:AddressLine/cbc:Line',
        'BT-52': 'cbc:CityName',
        'BT-53': 'cbc:PostalZone',
        'BT-54': 'cbc:CountrySubentity',
        'BT-55': 'cac:Country/cbc:IdentificationCode',
      }),
    ),
  });

const allowances = (node: XmlNode, charge: boolean, names: [string, string, string?, string?]) =>
  node
    .all('cac:AllowanceCharge')
    .filter((each) => each.words('cbc:ChargeIndicator') === String(charge))
    .map((each) =>
      found({
        [names[0]]: each.words('cbc:Amount'),
        [names[1]]: each.words('cbc:AllowanceChargeReason'),
        ...(names[2] ? { [names[2]]: each.words('cac:TaxCategory/cbc:ID') } : {}),
        ...(names[3] ? { [names[3]]: each.words('cac:TaxCategory/cbc:Percent') } : {}),
      }),
    );

const lineOf = (kind: 'Invoice' | 'Credit') => (line: XmlNode) => {
  const quantity = line.one(kind === 'Invoice' ? 'cbc:InvoicedQuantity' : 'cbc:CreditedQuantity');
  return found({
    ...terms(line, {
      'BT-126': 'cbc:ID',
      'BT-127': 'cbc:Note',
      'BT-131': 'cbc:LineExtensionAmount',
      'BT-146': 'cac:Price/cbc:PriceAmount',
      'BT-149': 'cac:Price/cbc:BaseQuantity',
      'BT-151': 'cac:Item/cac:ClassifiedTaxCategory/cbc:ID',
      'BT-152': 'cac:Item/cac:ClassifiedTaxCategory/cbc:Percent',
      'BT-153': 'cac:Item/cbc:Name',
      'BT-154': 'cac:Item/cbc:Description',
    }),
    'BT-129': quantity?.text,
    'BT-130': quantity?.attributes.unitCode,
    'BG-27': allowances(line, false, ['BT-136', 'BT-139']),
    'BG-28': allowances(line, true, ['BT-141', 'BT-144']),
  });
};

/** Reads an invoice or credit note back into its business terms. */
export const readUbl = (text: string): PlainPaper => {
  const root = readXml(text, UBL_PREFIXES);
  const credit = root.name === 'cn:CreditNote';
  return found({
    ...terms(root, {
      'BT-1': 'cbc:ID',
      'BT-2': 'cbc:IssueDate',
      'BT-3': credit ? 'cbc:CreditNoteTypeCode' : 'cbc:InvoiceTypeCode',
      'BT-5': 'cbc:DocumentCurrencyCode',
      'BT-7': 'cbc:TaxPointDate',
      'BT-9': credit ? 'cac:PaymentMeans/cbc:PaymentDueDate' : 'cbc:DueDate',
      'BT-10': 'cbc:BuyerReference',
      'BT-13': 'cac:OrderReference/cbc:ID',
      'BT-20': 'cac:PaymentTerms/cbc:Note',
      'BT-22': 'cbc:Note',
      'BT-72': 'cac:Delivery/cbc:ActualDeliveryDate',
      'BT-73': 'cac:InvoicePeriod/cbc:StartDate',
      'BT-74': 'cac:InvoicePeriod/cbc:EndDate',
      'BT-80': 'cac:Delivery/cac:DeliveryLocation/cac:Address/cac:Country/cbc:IdentificationCode',
    }),
    'BG-3': root
      .all('cac:BillingReference/cac:InvoiceDocumentReference')
      .map((each) => found(terms(each, { 'BT-25': 'cbc:ID', 'BT-26': 'cbc:IssueDate' }))),
    'BG-4': seller(root.one('cac:AccountingSupplierParty/cac:Party')!),
    'BG-7': buyer(root.one('cac:AccountingCustomerParty/cac:Party')!),
    'BG-16': found({
      ...terms(root.one('cac:PaymentMeans'), {
        'BT-81': 'cbc:PaymentMeansCode',
        'BT-83': 'cbc:PaymentID',
        'BT-84': 'cac:PayeeFinancialAccount/cbc:ID',
        'BT-85': 'cac:PayeeFinancialAccount/cbc:Name',
        'BT-86': 'cac:PayeeFinancialAccount/cac:FinancialInstitutionBranch/cbc:ID',
      }),
      'BT-82': root.one('cac:PaymentMeans/cbc:PaymentMeansCode')?.attributes.name,
    }),
    'BG-20': allowances(root, false, ['BT-92', 'BT-97', 'BT-95', 'BT-96']),
    'BG-21': allowances(root, true, ['BT-99', 'BT-104', 'BT-102', 'BT-103']),
    'BG-22': found({
      ...terms(root.one('cac:LegalMonetaryTotal'), {
        'BT-106': 'cbc:LineExtensionAmount',
        'BT-107': 'cbc:AllowanceTotalAmount',
        'BT-108': 'cbc:ChargeTotalAmount',
        'BT-109': 'cbc:TaxExclusiveAmount',
        'BT-112': 'cbc:TaxInclusiveAmount',
        'BT-113': 'cbc:PrepaidAmount',
        'BT-114': 'cbc:PayableRoundingAmount',
        'BT-115': 'cbc:PayableAmount',
      }),
      'BT-110': root.words('cac:TaxTotal/cbc:TaxAmount'),
    }),
    'BG-23': root.all('cac:TaxTotal/cac:TaxSubtotal').map((each) =>
      found(
        terms(each, {
          'BT-116': 'cbc:TaxableAmount',
          'BT-117': 'cbc:TaxAmount',
          'BT-118': 'cac:TaxCategory/cbc:ID',
          'BT-119': 'cac:TaxCategory/cbc:Percent',
          'BT-120': 'cac:TaxCategory/cbc:TaxExemptionReason',
        }),
      ),
    ),
    'BG-25': credit
      ? root.all('cac:CreditNoteLine').map(lineOf('Credit'))
      : root.all('cac:InvoiceLine').map(lineOf('Invoice')),
  });
};
