import { countryCode } from '../../../domain/papers/model/country.js';
import type { Buyer, Seller } from '../../../domain/papers/model/party.js';
import { branch, leaf, type XmlElement } from '../xml.js';

type Registration = { readonly number?: string; readonly scheme: 'VAT' | 'TAX' };

type Party = {
  readonly identifier?: string;
  readonly tradingName?: string;
  readonly street?: string;
  readonly second?: string;
  readonly third?: string;
  readonly city?: string;
  readonly postCode?: string;
  readonly region?: string;
  readonly country?: string;
  readonly registrations: readonly Registration[];
  readonly name?: string;
  readonly company?: string;
  readonly form?: string;
  readonly contact?: string;
  readonly telephone?: string;
  readonly mail?: string;
};

const partyElement = (party: Party): XmlElement | undefined =>
  branch(
    'cac:Party',
    branch('cac:PartyIdentification', leaf('cbc:ID', party.identifier)),
    branch('cac:PartyName', leaf('cbc:Name', party.tradingName)),
    branch(
      'cac:PostalAddress',
      leaf('cbc:StreetName', party.street),
      leaf('cbc:AdditionalStreetName', party.second),
      leaf('cbc:CityName', party.city),
      leaf('cbc:PostalZone', party.postCode),
      leaf('cbc:CountrySubentity', party.region),
      branch('cac:AddressLine', leaf('cbc:Line', party.third)),
      branch('cac:Country', leaf('cbc:IdentificationCode', party.country && countryCode(party.country))),
    ),
    ...party.registrations
      .filter(({ number }) => number?.trim())
      .map(({ number, scheme }) =>
        branch(
          'cac:PartyTaxScheme',
          leaf('cbc:CompanyID', number),
          branch('cac:TaxScheme', leaf('cbc:ID', scheme)),
        ),
      ),
    branch(
      'cac:PartyLegalEntity',
      leaf('cbc:RegistrationName', party.name),
      leaf('cbc:CompanyID', party.company),
      leaf('cbc:CompanyLegalForm', party.form),
    ),
    branch(
      'cac:Contact',
      leaf('cbc:Name', party.contact),
      leaf('cbc:Telephone', party.telephone),
      leaf('cbc:ElectronicMail', party.mail),
    ),
  );

/** BG-4 to BG-6. */
export const sellerParty = (seller: Seller): XmlElement | undefined =>
  partyElement({
    identifier: seller['BT-29'],
    tradingName: seller['BT-28'],
    street: seller['BG-5']?.['BT-35'],
    second: seller['BG-5']?.['BT-36'],
    third: seller['BG-5']?.['BT-162'],
    city: seller['BG-5']?.['BT-37'],
    postCode: seller['BG-5']?.['BT-38'],
    region: seller['BG-5']?.['BT-39'],
    country: seller['BG-5']?.['BT-40'],
    registrations: [
      { number: seller['BT-31'], scheme: 'VAT' },
      { number: seller['BT-32'], scheme: 'TAX' },
    ],
    name: seller['BT-27'],
    company: seller['BT-30'],
    form: seller['BT-33'],
    contact: seller['BT-41'],
    telephone: seller['BT-42'],
    mail: seller['BT-43'],
  });

/** BG-7 to BG-9. */
export const buyerParty = (buyer: Buyer): XmlElement | undefined =>
  partyElement({
    identifier: buyer['BT-46'],
    tradingName: buyer['BT-45'],
    street: buyer['BG-8']?.['BT-50'],
    second: buyer['BG-8']?.['BT-51'],
    third: buyer['BG-8']?.['BT-163'],
    city: buyer['BG-8']?.['BT-52'],
    postCode: buyer['BG-8']?.['BT-53'],
    region: buyer['BG-8']?.['BT-54'],
    country: buyer['BG-8']?.['BT-55'],
    registrations: [{ number: buyer['BT-48'], scheme: 'VAT' }],
    name: buyer['BT-44'],
    company: buyer['BT-47'],
    contact: buyer['BT-56'],
    telephone: buyer['BT-57'],
    mail: buyer['BT-58'],
  });
