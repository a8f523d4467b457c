/** One operation of a finished garment: what was planned before work began, and what it took. */
export interface PastOperation {
  readonly kind: string;
  /** Minutes planned, frozen before work; 0 where nobody planned it. */
  readonly plannedMinutes: number;
  /** Minutes worked, own error and extras left out; 0 where it was planned but not done. */
  readonly actualMinutes: number;
  /** True where the client or the maker changed the work and the plan was not changed with it. */
  readonly changeNotReplanned?: boolean;
}

/** A finished garment, as the lesson reads it. */
export interface PastGarment {
  readonly garmentType: string;
  readonly operations: readonly PastOperation[];
  /** How many times this block has been made for this wearer, this one included; 1 if left out. */
  readonly repeat?: number;
}

/** One operation of a garment that is planned or on the bench. */
export interface PlannedOperation {
  readonly kind: string;
  /** The hand it is worked in: hand, machine, press, fitting and so on. */
  readonly mode?: string;
  /** Where one operation takes several modes: their shares, which need not add to 1. */
  readonly modes?: Readonly<Record<string, number>>;
  readonly plannedMinutes: number;
  /** Minutes it took, once it is finished. */
  readonly finishedMinutes?: number;
  /** Minutes so far, while it is under way. */
  readonly soFarMinutes?: number;
  /** (ln high - ln low) / 2.563 of the starting value: stands in for the starting spread of its kind. */
  readonly startingSpread?: number;
  /** True for a line taken unchanged from the starting values: the maker's habit of running over is not added. */
  readonly fromStartingValues?: boolean;
}

/** A garment to be estimated. */
export interface PlannedGarment {
  readonly garmentType: string;
  readonly operations: readonly PlannedOperation[];
  readonly repeat?: number;
}

/** One row of the model: the log of actual over planned. */
export interface Row {
  readonly kind: string;
  readonly y: number;
  readonly lnPlanned: number;
  readonly change: number;
}

/** The rows of one garment. */
export interface GarmentOfRows {
  readonly garmentType: string;
  /** ln of the repeat number. */
  readonly again: number;
  readonly rows: readonly Row[];
}

const LONGEST = 1e9;

/** Minutes below this are none: no ratio can be taken of them. */
export const BARELY = 1e-6;

/**
 * Lets minutes pass that can be reckoned with.
 *
 * @param minutes what was given
 * @param what the name to use in the complaint
 * @returns the same minutes
 * @throws RangeError if they are not a number, negative, or beyond a thousand million
 */
export const checkedMinutes = (minutes: number, what: string): number => {
  if (!(minutes >= 0 && minutes <= LONGEST))
    throw new RangeError(`${what} must be minutes from 0 to 1,000,000,000.`);
  return minutes;
};

/**
 * Past garments as rows of the model; operations with nothing planned or nothing worked are left to `often forgotten`.
 *
 * @param history finished garments, oldest first
 * @returns the garments with at least one usable row, oldest first
 * @throws RangeError for minutes that are no minutes
 */
export const rowsOf = (history: readonly PastGarment[]): GarmentOfRows[] => {
  const found: GarmentOfRows[] = [];
  for (const garment of history) {
    const rows: Row[] = [];
    for (const operation of garment.operations) {
      const planned = checkedMinutes(operation.plannedMinutes, 'Planned time');
      const actual = checkedMinutes(operation.actualMinutes, 'Time worked');
      if (planned < BARELY || actual < BARELY) continue;
      rows.push({
        kind: operation.kind,
        y: Math.log(actual / planned),
        lnPlanned: Math.log(planned),
        change: operation.changeNotReplanned ? 1 : 0,
      });
    }
    if (rows.length > 0)
      found.push({
        garmentType: garment.garmentType,
        again: Math.log(Math.max(1, garment.repeat ?? 1)),
        rows,
      });
  }
  return found;
};
