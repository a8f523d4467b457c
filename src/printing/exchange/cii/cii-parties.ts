import { countryCode } from '../../../domain/papers/model/country.js';
import type { Buyer, Seller } from '../../../domain/papers/model/party.js';
import { branch, leaf, stem, type XmlElement } from '../xml.js';

/** A telephone number or an address of mail, where a trade contact keeps them. */
const contact = (name?: string, telephone?: string, mail?: string): XmlElement | undefined =>
  branch(
    'ram:DefinedTradeContact',
    leaf('ram:PersonName', name),
    branch('ram:TelephoneUniversalCommunication', leaf('ram:CompleteNumber', telephone)),
    branch('ram:EmailURIUniversalCommunication', leaf('ram:URIID', mail)),
  );

const registration = (number: string | undefined, schemeID: 'VA' | 'FC'): XmlElement | undefined =>
  branch('ram:SpecifiedTaxRegistration', leaf('ram:ID', number, { schemeID }));

/** BG-4 to BG-6. */
export const sellerTradeParty = (seller: Seller): XmlElement => {
  const address = seller['BG-5'];
  return stem(
    'ram:SellerTradeParty',
    {},
    leaf('ram:ID', seller['BT-29']),
    leaf('ram:Name', seller['BT-27']),
    leaf('ram:Description', seller['BT-33']),
    branch(
      'ram:SpecifiedLegalOrganization',
      leaf('ram:ID', seller['BT-30']),
      leaf('ram:TradingBusinessName', seller['BT-28']),
    ),
    contact(seller['BT-41'], seller['BT-42'], seller['BT-43']),
    branch(
      'ram:PostalTradeAddress',
      leaf('ram:PostcodeCode', address?.['BT-38']),
      leaf('ram:LineOne', address?.['BT-35']),
      leaf('ram:LineTwo', address?.['BT-36']),
      leaf('ram:LineThree', address?.['BT-162']),
      leaf('ram:CityName', address?.['BT-37']),
      leaf('ram:CountryID', countryCode(address?.['BT-40'] ?? '')),
      leaf('ram:CountrySubDivisionName', address?.['BT-39']),
    ),
    registration(seller['BT-31'], 'VA'),
    registration(seller['BT-32'], 'FC'),
  );
};

/** BG-7 to BG-9. */
export const buyerTradeParty = (buyer: Buyer): XmlElement => {
  const address = buyer['BG-8'];
  return stem(
    'ram:BuyerTradeParty',
    {},
    leaf('ram:ID', buyer['BT-46']),
    leaf('ram:Name', buyer['BT-44']),
    branch(
      'ram:SpecifiedLegalOrganization',
      leaf('ram:ID', buyer['BT-47']),
      leaf('ram:TradingBusinessName', buyer['BT-45']),
    ),
    contact(buyer['BT-56'], buyer['BT-57'], buyer['BT-58']),
    branch(
      'ram:PostalTradeAddress',
      leaf('ram:PostcodeCode', address?.['BT-53']),
      leaf('ram:LineOne', address?.['BT-50']),
      leaf('ram:LineTwo', address?.['BT-51']),
      leaf('ram:LineThree', address?.['BT-163']),
      leaf('ram:CityName', address?.['BT-52']),
      leaf('ram:CountryID', countryCode(address?.['BT-55'] ?? '')),
      leaf('ram:CountrySubDivisionName', address?.['BT-54']),
    ),
    registration(buyer['BT-48'], 'VA'),
  );
};
