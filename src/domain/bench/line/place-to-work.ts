import type { Mode, Stage } from '../../making/mode.js';

/** One line of a plan as a line of time can name it. */
export type NamedOperation = {
  readonly id: string;
  /** Its line in the plan, from 1. */
  readonly no: number;
  readonly kind: string;
  readonly name: string;
  readonly stage: Stage;
  readonly mode: Mode;
  /** Is it done in several modes? */
  readonly mixed: boolean;
  readonly finished: boolean;
};

/** A garment that is being made, with what can be done on it. */
export type PlaceToWork = {
  readonly garmentId: string;
  readonly commissionId: string;
  readonly commissionNumber: string;
  /** Its number in the commission, from 1. */
  readonly place: number;
  readonly name: string;
  readonly wearerName: string;
  readonly operations: readonly NamedOperation[];
};
