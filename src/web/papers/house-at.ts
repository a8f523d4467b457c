/** The gate's names for what a paper takes from the house, and the field of House each is mended in. */
const FIELDS: Readonly<Record<string, string>> = {
  'seller.name': 'identity#field-name',
  'seller.address': 'identity#field-address',
  'seller.country': 'identity#field-country',
  'seller.registration': 'identity#field-companyNumber',
  'seller.taxNumber': 'tax#field-taxNumber',
  'seller.tax': 'tax#field-registered',
  taxReasons: 'tax#field-reason',
  currency: 'units#field-currency',
};

/** Where in House a finding on a paper is mended: the very field, or the contents where its place is not known. */
export const houseAt = (field: string): string => {
  if (field.startsWith('payment.')) return '/house/invoices';
  const place = FIELDS[/^(?:lines|garments)\.\d+\.(?:category|rate)$/.test(field) ? 'seller.tax' : field];
  return place ? `/house/${place}` : '/house';
};
