/** What somebody may do: everything; the bench and the plans; the papers and the payments. */
export const ROLES = ['owner', 'maker', 'bookkeeper'] as const;
export type Role = (typeof ROLES)[number];

/** The roles in words. */
export const ROLE_WORDS: Readonly<Record<Role, string>> = {
  owner: 'owner',
  maker: 'maker',
  bookkeeper: 'bookkeeper',
};

/** Somebody whose minutes are kept. Their hour is the one the rate card has under the same name. */
export type Person = {
  readonly id: string;
  readonly version: number;
  readonly name: string;
  readonly role: Role;
  /** The account they sign in with; none for somebody whose time is written down by others. */
  readonly accountId: string | undefined;
  /** May a maker see prices and clients' addresses? The owner always may. */
  readonly seesPrices: boolean;
  /** Left the workroom: kept for the history, offered no more. */
  readonly left: boolean;
};

/**
 * Whose hour of the rate card is meant: the one of the same name, or the first, who stands for the workroom.
 *
 * @param names names on the card, in its order; at least one
 * @see test/domain/bench/person.test.ts
 */
export const nameOnCard = (name: string, names: readonly string[]): string | undefined =>
  names.find((one) => one.trim().toLowerCase() === name.trim().toLowerCase()) ?? names[0];
