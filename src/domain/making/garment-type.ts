import { Invalid } from '../kernel/errors.js';

/** A type of garment the studio makes. */
export type GarmentType = {
  /** A short stable name such as `lounge-jacket`. */
  readonly id: string;
  readonly name: string;
  readonly plural: string;
  /** Is it a price list of jobs (alterations) and not a garment with a plan? */
  readonly isMenu: boolean;
  /** The list of body dimensions to take, in order, by id. */
  readonly measuringList: readonly string[];
};

const ID = /^[a-z][a-z0-9-]{0,59}$/;
const LONGEST_NAME = 120;

/**
 * A garment type, checked.
 *
 * @throws Invalid naming the field at fault
 */
export const garmentType = (given: GarmentType): GarmentType => {
  if (!ID.test(given.id))
    throw Invalid.field('id', 'A garment type needs a short name of small letters and hyphens.');
  for (const field of ['name', 'plural'] as const) {
    if (given[field].trim() === '' || given[field].length > LONGEST_NAME)
      throw Invalid.field(field, `Write a name of at most ${LONGEST_NAME} letters.`);
  }
  const twice = given.measuringList.find((id, place) => given.measuringList.indexOf(id) !== place);
  if (twice !== undefined) throw Invalid.field('measuringList', `“${twice}” stands twice in the list.`);
  return given;
};
