/** One row of a card. `value` is as typed, with its unit; '' leaves a line to write on. */
export type CardMeasurement = {
  /** The word the workroom uses: "half back". */
  readonly trade: string;
  /** The name in ISO 8559-1; '' where the standard has none in our list. */
  readonly iso: string;
  readonly value: string;
  /** Against this client's last set, "+¼ in"; '' when there is none. */
  readonly change: string;
};

/** A measurement card as words: no price, no address, no name. '' leaves a line to write on. */
export type MeasurementCard = {
  readonly language: string;
  readonly studio: string;
  /** What it was taken for: "Jacket and waistcoat". */
  readonly purpose: string;
  readonly clientCode: string;
  readonly date: string;
  readonly measuredBy: string;
  readonly takenOver: string;
  readonly measurements: readonly CardMeasurement[];
  /** In neutral words that the client may read: "Right shoulder lower by ½ in". */
  readonly figuration: readonly string[];
  readonly notes: readonly string[];
  /** Empty rows below, for what is measured beyond the list. */
  readonly spareRows: number;
};

/** The same list to fill in by hand: every value empty, a few rows to spare. */
export const blankCard = (card: MeasurementCard, spareRows = 4): MeasurementCard => ({
  ...card,
  clientCode: '',
  date: '',
  measuredBy: '',
  takenOver: '',
  measurements: card.measurements.map(({ trade, iso }) => ({ trade, iso, value: '', change: '' })),
  figuration: [],
  notes: [],
  spareRows,
});
