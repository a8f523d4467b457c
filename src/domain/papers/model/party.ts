/** Where the seller is: BG-5. */
export type SellerAddress = {
  readonly 'BT-35'?: string;
  readonly 'BT-36'?: string;
  readonly 'BT-162'?: string;
  readonly 'BT-37'?: string;
  readonly 'BT-38'?: string;
  readonly 'BT-39'?: string;
  /** ISO 3166-1 alpha-2. */
  readonly 'BT-40'?: string;
};

/** Who makes and asks to be paid: BG-4 with its address and contact. */
export type Seller = {
  readonly 'BT-27'?: string;
  readonly 'BT-28'?: string;
  readonly 'BT-29'?: string;
  readonly 'BT-30'?: string;
  /** VAT identifier, country prefix first. */
  readonly 'BT-31'?: string;
  /** Local tax registration. */
  readonly 'BT-32'?: string;
  readonly 'BT-33'?: string;
  readonly 'BG-5'?: SellerAddress;
  readonly 'BT-41'?: string;
  readonly 'BT-42'?: string;
  readonly 'BT-43'?: string;
};

/** Where the client is: BG-8. */
export type BuyerAddress = {
  readonly 'BT-50'?: string;
  readonly 'BT-51'?: string;
  readonly 'BT-163'?: string;
  readonly 'BT-52'?: string;
  readonly 'BT-53'?: string;
  readonly 'BT-54'?: string;
  readonly 'BT-55'?: string;
};

/** Who pays: BG-7. */
export type Buyer = {
  readonly 'BT-44'?: string;
  readonly 'BT-45'?: string;
  readonly 'BT-46'?: string;
  readonly 'BT-47'?: string;
  readonly 'BT-48'?: string;
  readonly 'BG-8'?: BuyerAddress;
  readonly 'BT-56'?: string;
  readonly 'BT-57'?: string;
  readonly 'BT-58'?: string;
};

const ADDRESS_LINES = {
  seller: ['BT-35', 'BT-36', 'BT-162'],
  buyer: ['BT-50', 'BT-51', 'BT-163'],
} as const;

const filled = (text: string | undefined): text is string => text !== undefined && text.trim() !== '';

/** The seller's address as lines of a letterhead: street lines, post code and town, region, country. */
export const sellerAddressLines = (address: SellerAddress = {}): string[] =>
  [
    ...ADDRESS_LINES.seller.map((term) => address[term]),
    [address['BT-38'], address['BT-37']].filter(filled).join(' '),
    address['BT-39'],
    address['BT-40'],
  ].filter(filled);

/** The client's address as lines on an envelope: street lines, post code and town, region, country. */
export const buyerAddressLines = (address: BuyerAddress = {}): string[] =>
  [
    ...ADDRESS_LINES.buyer.map((term) => address[term]),
    [address['BT-53'], address['BT-52']].filter(filled).join(' '),
    address['BT-54'],
    address['BT-55'],
  ].filter(filled);
