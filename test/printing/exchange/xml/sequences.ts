/*
 * The order of elements in UBL 2.1 (OASIS, 2013: Invoice, CreditNote, common aggregates) and the Cross Industry Invoice
 * D16B (UN/CEFACT), as far as papers use their aggregates. No package of the registry carries the schemas, so the lists are
 * from memory; `?` at most one, `*` any number, `+` at least one. Counts are the schema's, not the core model's.
 */

const words = (text: string): string => text.replace(/\s+/g, ' ').trim();

const ADDRESS =
  words(`cbc:ID? cbc:AddressTypeCode? cbc:AddressFormatCode? cbc:Postbox? cbc:Floor? cbc:Room? cbc:StreetName?
  cbc:AdditionalStreetName? cbc:BlockName? cbc:BuildingName? cbc:BuildingNumber? cbc:InhouseMail? cbc:Department?
  cbc:MarkAttention? cbc:MarkCare? cbc:PlotIdentification? cbc:CitySubdivisionName? cbc:CityName? cbc:PostalZone?
  cbc:CountrySubentity? cbc:CountrySubentityCode? cbc:Region? cbc:District? cbc:TimezoneOffset? cac:AddressLine*
  cac:Country? cac:LocationCoordinate*`);

const TAX_CATEGORY = words(`cbc:ID? cbc:Name? cbc:Percent? cbc:BaseUnitMeasure? cbc:PerUnitAmount?
  cbc:TaxExemptionReasonCode? cbc:TaxExemptionReason* cbc:TierRange? cbc:TierRatePercent? cac:TaxScheme`);

const PARTIES =
  'cac:AccountingSupplierParty cac:AccountingCustomerParty cac:PayeeParty? cac:TaxRepresentativeParty?';

export const UBL_SEQUENCES: Readonly<Record<string, string>> = {
  Invoice:
    words(`cbc:UBLVersionID? cbc:CustomizationID? cbc:ProfileID? cbc:ID cbc:CopyIndicator? cbc:UUID? cbc:IssueDate
    cbc:IssueTime? cbc:DueDate? cbc:InvoiceTypeCode? cbc:Note* cbc:TaxPointDate? cbc:DocumentCurrencyCode?
    cbc:TaxCurrencyCode? cbc:AccountingCost? cbc:LineCountNumeric? cbc:BuyerReference? cac:InvoicePeriod*
    cac:OrderReference? cac:BillingReference* cac:ContractDocumentReference* cac:AdditionalDocumentReference* ${PARTIES}
    cac:Delivery* cac:DeliveryTerms? cac:PaymentMeans* cac:PaymentTerms* cac:PrepaidPayment* cac:AllowanceCharge*
    cac:TaxExchangeRate? cac:TaxTotal* cac:LegalMonetaryTotal cac:InvoiceLine+`),
  CreditNote:
    words(`cbc:UBLVersionID? cbc:CustomizationID? cbc:ProfileID? cbc:ID cbc:CopyIndicator? cbc:UUID? cbc:IssueDate
    cbc:IssueTime? cbc:TaxPointDate? cbc:CreditNoteTypeCode? cbc:Note* cbc:DocumentCurrencyCode? cbc:TaxCurrencyCode?
    cbc:AccountingCost? cbc:LineCountNumeric? cbc:BuyerReference? cac:InvoicePeriod* cac:DiscrepancyResponse*
    cac:OrderReference? cac:BillingReference* cac:ContractDocumentReference* cac:AdditionalDocumentReference* ${PARTIES}
    cac:Delivery* cac:DeliveryTerms* cac:PaymentMeans* cac:PaymentTerms* cac:TaxExchangeRate? cac:AllowanceCharge*
    cac:TaxTotal* cac:LegalMonetaryTotal cac:CreditNoteLine+`),
  InvoicePeriod: 'cbc:StartDate? cbc:StartTime? cbc:EndDate? cbc:EndTime? cbc:DescriptionCode*',
  OrderReference: 'cbc:ID cbc:SalesOrderID?',
  BillingReference: 'cac:InvoiceDocumentReference?',
  InvoiceDocumentReference: 'cbc:ID cbc:CopyIndicator? cbc:UUID? cbc:IssueDate?',
  AccountingSupplierParty: 'cac:Party?',
  AccountingCustomerParty: 'cac:Party?',
  Party:
    words(`cbc:WebsiteURI? cbc:EndpointID? cac:PartyIdentification* cac:PartyName* cac:Language? cac:PostalAddress?
    cac:PhysicalLocation? cac:PartyTaxScheme* cac:PartyLegalEntity* cac:Contact?`),
  PartyIdentification: 'cbc:ID',
  PartyName: 'cbc:Name',
  PostalAddress: ADDRESS,
  Address: ADDRESS,
  AddressLine: 'cbc:Line',
  Country: 'cbc:IdentificationCode? cbc:Name?',
  PartyTaxScheme: 'cbc:RegistrationName? cbc:CompanyID? cbc:TaxLevelCode? cac:TaxScheme',
  TaxScheme: 'cbc:ID? cbc:Name? cbc:TaxTypeCode? cbc:CurrencyCode?',
  PartyLegalEntity:
    words(`cbc:RegistrationName? cbc:CompanyID? cbc:RegistrationDate? cbc:RegistrationExpirationDate?
    cbc:CompanyLegalFormCode? cbc:CompanyLegalForm?`),
  Contact: 'cbc:ID? cbc:Name? cbc:Telephone? cbc:Telefax? cbc:ElectronicMail? cbc:Note*',
  Delivery: words(`cbc:ID? cbc:Quantity? cbc:ActualDeliveryDate? cbc:ActualDeliveryTime? cac:DeliveryAddress?
    cac:DeliveryLocation? cac:DeliveryParty?`),
  DeliveryLocation: 'cbc:ID? cbc:Description* cbc:Name? cac:Address?',
  PaymentMeans:
    words(`cbc:ID? cbc:PaymentMeansCode cbc:PaymentDueDate? cbc:PaymentChannelCode? cbc:InstructionID?
    cbc:InstructionNote* cbc:PaymentID* cac:CardAccount? cac:PayerFinancialAccount? cac:PayeeFinancialAccount?`),
  PayeeFinancialAccount:
    words(`cbc:ID? cbc:Name? cbc:AliasName? cbc:AccountTypeCode? cbc:CurrencyCode? cbc:PaymentNote*
    cac:FinancialInstitutionBranch?`),
  FinancialInstitutionBranch: 'cbc:ID? cbc:Name?',
  PaymentTerms: 'cbc:ID? cbc:PaymentMeansID* cbc:PrepaidPaymentReferenceID? cbc:Note*',
  AllowanceCharge:
    words(`cbc:ID? cbc:ChargeIndicator cbc:AllowanceChargeReasonCode? cbc:AllowanceChargeReason*
    cbc:MultiplierFactorNumeric? cbc:PrepaidIndicator? cbc:SequenceNumeric? cbc:Amount cbc:BaseAmount? cac:TaxCategory*`),
  TaxCategory: TAX_CATEGORY,
  ClassifiedTaxCategory: TAX_CATEGORY,
  TaxTotal:
    'cbc:TaxAmount cbc:RoundingAmount? cbc:TaxEvidenceIndicator? cbc:TaxIncludedIndicator? cac:TaxSubtotal*',
  TaxSubtotal:
    'cbc:TaxableAmount? cbc:TaxAmount cbc:CalculationSequenceNumeric? cbc:Percent? cac:TaxCategory',
  LegalMonetaryTotal: words(`cbc:LineExtensionAmount? cbc:TaxExclusiveAmount? cbc:TaxInclusiveAmount?
    cbc:AllowanceTotalAmount? cbc:ChargeTotalAmount? cbc:PrepaidAmount? cbc:PayableRoundingAmount? cbc:PayableAmount`),
  InvoiceLine:
    words(`cbc:ID cbc:UUID? cbc:Note* cbc:InvoicedQuantity? cbc:LineExtensionAmount cbc:TaxPointDate?
    cbc:AccountingCost? cac:InvoicePeriod* cac:OrderLineReference* cac:AllowanceCharge* cac:TaxTotal* cac:Item cac:Price?`),
  CreditNoteLine:
    words(`cbc:ID cbc:UUID? cbc:Note* cbc:CreditedQuantity? cbc:LineExtensionAmount? cbc:TaxPointDate?
    cbc:AccountingCost? cac:InvoicePeriod* cac:OrderLineReference* cac:TaxTotal* cac:AllowanceCharge* cac:Item? cac:Price?`),
  Item: 'cbc:Description* cbc:PackQuantity? cbc:Name? cac:SellersItemIdentification? cac:ClassifiedTaxCategory*',
  Price: 'cbc:PriceAmount cbc:BaseQuantity?',
};

const TRADE_TAX =
  words(`ram:CalculatedAmount* ram:TypeCode? ram:ExemptionReason? ram:CalculatedRate? ram:BasisQuantity?
  ram:BasisAmount* ram:LineTotalBasisAmount* ram:AllowanceChargeBasisAmount* ram:CategoryCode? ram:CurrencyCode?
  ram:ExemptionReasonCode? ram:TaxPointDate? ram:DueDateTypeCode? ram:RateApplicablePercent?`);

const TRADE_PARTY =
  words(`ram:ID* ram:GlobalID* ram:Name? ram:RoleCode? ram:Description* ram:SpecifiedLegalOrganization?
  ram:DefinedTradeContact* ram:PostalTradeAddress? ram:URIUniversalCommunication* ram:SpecifiedTaxRegistration*`);

const MOMENT = 'udt:DateTimeString';

export const CII_SEQUENCES: Readonly<Record<string, string>> = {
  CrossIndustryInvoice: 'rsm:ExchangedDocumentContext rsm:ExchangedDocument rsm:SupplyChainTradeTransaction',
  ExchangedDocumentContext: words(`ram:SpecifiedTransactionID? ram:TestIndicator?
    ram:BusinessProcessSpecifiedDocumentContextParameter* ram:GuidelineSpecifiedDocumentContextParameter*`),
  GuidelineSpecifiedDocumentContextParameter: 'ram:ID? ram:Value?',
  ExchangedDocument:
    words(`ram:ID? ram:Name* ram:TypeCode? ram:IssueDateTime? ram:CopyIndicator? ram:LanguageID*
    ram:IncludedNote*`),
  IncludedNote: 'ram:ContentCode* ram:Content* ram:SubjectCode?',
  IssueDateTime: MOMENT,
  OccurrenceDateTime: MOMENT,
  StartDateTime: MOMENT,
  EndDateTime: MOMENT,
  DueDateDateTime: MOMENT,
  TaxPointDate: 'udt:DateString',
  FormattedIssueDateTime: 'qdt:DateTimeString',
  SupplyChainTradeTransaction: words(`ram:IncludedSupplyChainTradeLineItem* ram:ApplicableHeaderTradeAgreement
    ram:ApplicableHeaderTradeDelivery ram:ApplicableHeaderTradeSettlement`),
  IncludedSupplyChainTradeLineItem: words(`ram:AssociatedDocumentLineDocument ram:SpecifiedTradeProduct?
    ram:SpecifiedLineTradeAgreement? ram:SpecifiedLineTradeDelivery? ram:SpecifiedLineTradeSettlement`),
  AssociatedDocumentLineDocument: 'ram:LineID? ram:ParentLineID? ram:LineStatusCode? ram:IncludedNote*',
  SpecifiedTradeProduct:
    'ram:ID? ram:GlobalID* ram:SellerAssignedID? ram:BuyerAssignedID? ram:Name* ram:Description?',
  SpecifiedLineTradeAgreement: words(`ram:BuyerOrderReferencedDocument? ram:GrossPriceProductTradePrice*
    ram:NetPriceProductTradePrice*`),
  NetPriceProductTradePrice: 'ram:TypeCode? ram:ChargeAmount* ram:BasisQuantity?',
  SpecifiedLineTradeDelivery: 'ram:BilledQuantity?',
  SpecifiedLineTradeSettlement:
    words(`ram:ApplicableTradeTax* ram:BillingSpecifiedPeriod? ram:SpecifiedTradeAllowanceCharge*
    ram:SpecifiedTradeSettlementLineMonetarySummation?`),
  SpecifiedTradeSettlementLineMonetarySummation: 'ram:LineTotalAmount*',
  ApplicableTradeTax: TRADE_TAX,
  CategoryTradeTax: TRADE_TAX,
  SpecifiedTradeAllowanceCharge:
    words(`ram:ChargeIndicator? ram:ID? ram:SequenceNumeric? ram:CalculationPercent?
    ram:BasisAmount? ram:BasisQuantity? ram:PrepaidIndicator? ram:ActualAmount* ram:UnitBasisAmount? ram:ReasonCode?
    ram:Reason? ram:CategoryTradeTax*`),
  ChargeIndicator: 'udt:Indicator',
  ApplicableHeaderTradeAgreement:
    words(`ram:Reference? ram:BuyerReference? ram:SellerTradeParty? ram:BuyerTradeParty?
    ram:SellerTaxRepresentativeTradeParty? ram:SellerOrderReferencedDocument? ram:BuyerOrderReferencedDocument?
    ram:ContractReferencedDocument?`),
  SellerTradeParty: TRADE_PARTY,
  BuyerTradeParty: TRADE_PARTY,
  ShipToTradeParty: TRADE_PARTY,
  SpecifiedLegalOrganization: 'ram:LegalClassificationCode? ram:Name? ram:ID? ram:TradingBusinessName?',
  DefinedTradeContact: words(`ram:ID? ram:PersonName? ram:DepartmentName? ram:TypeCode?
    ram:TelephoneUniversalCommunication? ram:FaxUniversalCommunication? ram:EmailURIUniversalCommunication?`),
  TelephoneUniversalCommunication: 'ram:URIID? ram:ChannelCode? ram:CompleteNumber?',
  EmailURIUniversalCommunication: 'ram:URIID? ram:ChannelCode? ram:CompleteNumber?',
  PostalTradeAddress:
    words(`ram:ID? ram:PostcodeCode* ram:PostOfficeBox? ram:BuildingName? ram:LineOne? ram:LineTwo?
    ram:LineThree? ram:LineFour? ram:LineFive? ram:StreetName? ram:CityName? ram:CitySubDivisionName? ram:CountryID?
    ram:CountryName* ram:CountrySubDivisionID? ram:CountrySubDivisionName*`),
  SpecifiedTaxRegistration: 'ram:ID?',
  BuyerOrderReferencedDocument: 'ram:IssuerAssignedID? ram:FormattedIssueDateTime?',
  InvoiceReferencedDocument: 'ram:IssuerAssignedID? ram:TypeCode? ram:FormattedIssueDateTime?',
  ApplicableHeaderTradeDelivery: words(`ram:RelatedSupplyChainConsignment? ram:ShipToTradeParty?
    ram:UltimateShipToTradeParty? ram:ShipFromTradeParty? ram:ActualDeliverySupplyChainEvent?`),
  ActualDeliverySupplyChainEvent: 'ram:OccurrenceDateTime?',
  ApplicableHeaderTradeSettlement:
    words(`ram:DuePayableAmount* ram:CreditorReferenceTypeCode? ram:CreditorReferenceType?
    ram:CreditorReferenceIssuerID? ram:CreditorReferenceID? ram:PaymentReference? ram:TaxCurrencyCode?
    ram:InvoiceCurrencyCode? ram:PayeeTradeParty? ram:SpecifiedTradeSettlementPaymentMeans* ram:ApplicableTradeTax*
    ram:BillingSpecifiedPeriod? ram:SpecifiedTradeAllowanceCharge* ram:SpecifiedLogisticsServiceCharge*
    ram:SpecifiedTradePaymentTerms* ram:SpecifiedTradeSettlementHeaderMonetarySummation ram:InvoiceReferencedDocument?`),
  SpecifiedTradeSettlementPaymentMeans: words(`ram:PaymentChannelCode? ram:TypeCode? ram:GuaranteeMethodCode?
    ram:PaymentMethodCode? ram:Information* ram:ID* ram:ApplicableTradeSettlementFinancialCard?
    ram:PayerPartyDebtorFinancialAccount? ram:PayeePartyCreditorFinancialAccount?
    ram:PayeeSpecifiedCreditorFinancialInstitution?`),
  PayeePartyCreditorFinancialAccount: 'ram:IBANID? ram:AccountName? ram:ProprietaryID?',
  PayeeSpecifiedCreditorFinancialInstitution: 'ram:BICID?',
  BillingSpecifiedPeriod:
    'ram:DurationMeasure? ram:InclusiveIndicator? ram:Description* ram:StartDateTime? ram:EndDateTime?',
  SpecifiedTradePaymentTerms: words(`ram:ID? ram:FromEventCode? ram:SettlementPeriodMeasure? ram:Description*
    ram:DueDateDateTime?`),
  SpecifiedTradeSettlementHeaderMonetarySummation: words(`ram:LineTotalAmount* ram:ChargeTotalAmount*
    ram:AllowanceTotalAmount* ram:TaxBasisTotalAmount* ram:TaxTotalAmount* ram:RoundingAmount* ram:GrandTotalAmount*
    ram:InformationAmount* ram:TotalPrepaidAmount* ram:TotalDiscountAmount* ram:TotalAllowanceAmount* ram:DuePayableAmount*`),
};
