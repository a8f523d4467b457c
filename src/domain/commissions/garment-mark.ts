import type { CalendarDate, Instant } from '../kernel/calendar-date.js';

/** What happens to a garment once, or is taken back: marks are added, never changed. */
export const GARMENT_MARKS = [
  'cut',
  'delivered',
  'collected',
  'cancelled',
  'closed',
  'operation-finished',
  'operation-left-out',
  'aftercare',
  'notice',
] as const;
export type GarmentMarkKind = (typeof GARMENT_MARKS)[number];

/** One mark on a garment. A mark that takes another back names it in `of`. */
export type GarmentMark = {
  readonly id: string;
  readonly garmentId: string;
  readonly commissionId: string;
  readonly kind: GarmentMarkKind;
  /** The line of the plan, for marks on operations. */
  readonly operationId: string | undefined;
  readonly on: CalendarDate;
  readonly who: string;
  readonly words: string;
  /** What was frozen with it: measurements when it was cut, figures when it was closed. JSON; empty for none. */
  readonly document: string;
  /** The mark that this one takes back. */
  readonly of: string | undefined;
  readonly writtenAt: Instant;
};

/** Where a garment stands. */
export type GarmentStanding = 'to-make' | 'cut' | 'delivered' | 'cancelled' | 'closed';

/** Where it stands, in words. */
export const STANDING_WORDS: Readonly<Record<GarmentStanding, string>> = {
  'to-make': 'not cut yet',
  cut: 'cut',
  delivered: 'handed over',
  cancelled: 'cancelled',
  closed: 'closed',
};

/** What of a mark says where its garment stands. */
export type MarkFolded = Pick<GarmentMark, 'id' | 'kind' | 'of'>;

/** The marks that stand: those nobody took back, oldest first. */
export const standingMarks = <Mark extends MarkFolded>(marks: readonly Mark[]): Mark[] => {
  const takenBack = new Set(marks.flatMap(({ of }) => (of ? [of] : [])));
  return marks.filter(({ id, of }) => !of && !takenBack.has(id));
};

/**
 * Where a garment stands: closed and cancelled end it, handed over and cut follow in that order.
 *
 * @see test/domain/commissions/garment-mark.test.ts
 */
export const garmentStanding = (marks: readonly MarkFolded[]): GarmentStanding => {
  const kinds = new Set(standingMarks(marks).map(({ kind }) => kind));
  if (kinds.has('closed')) return 'closed';
  if (kinds.has('cancelled')) return 'cancelled';
  if (kinds.has('delivered')) return 'delivered';
  return kinds.has('cut') ? 'cut' : 'to-make';
};

/** May work, cloth and changes still be written to it? */
export const isOpen = (standing: GarmentStanding): boolean =>
  standing !== 'closed' && standing !== 'cancelled';

/** Lines of the plan that are finished, and those that were left out. */
export const operationMarks = (
  marks: readonly GarmentMark[],
): { readonly finished: ReadonlySet<string>; readonly leftOut: ReadonlySet<string> } => {
  const ofKind = (kind: GarmentMarkKind) =>
    new Set(
      standingMarks(marks).flatMap((mark) =>
        mark.kind === kind && mark.operationId ? [mark.operationId] : [],
      ),
    );
  return { finished: ofKind('operation-finished'), leftOut: ofKind('operation-left-out') };
};
