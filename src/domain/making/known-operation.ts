import { Decimal, readDecimal } from '../kernel/decimal.js';
import { Invalid } from '../kernel/errors.js';
import { type Driver, isDriver, isMake, isMode, isStage, type Make, type Mode, type Stage } from './mode.js';
import { type Operation, operation } from './operation.js';

/** An operation the studio knows, from the starting values or its own, ready to go into a plan. */
export type KnownOperation = {
  /** The garment type's id it belongs to. */
  readonly garmentType: string;
  /** Its place in the type's list, from 1. */
  readonly no: number;
  readonly kind: string;
  readonly name: string;
  readonly stage: Stage;
  readonly mode: Mode;
  readonly driver: Driver;
  readonly typicalCount: Decimal;
  readonly fixedMinutes: Decimal;
  readonly minutesPerUnit: Decimal;
  readonly startingSpread?: Decimal;
  readonly needsMinutes: boolean;
  readonly basting: boolean;
  /** Not in a plan unless chosen. */
  readonly isAlternative: boolean;
  /** The places in the list it stands in for. */
  readonly insteadOf: readonly number[];
  /** The makes that choose it. */
  readonly makes: readonly Make[];
  /** A line of a price list, a job of its own, never part of a plan. */
  readonly isMenu: boolean;
  readonly fromStartingValues: boolean;
  readonly source: string;
};

/** One line of the starting operations: plain texts by column. */
export type OperationLine = Readonly<
  Record<
    | 'garment_type'
    | 'no'
    | 'kind'
    | 'stage'
    | 'operation'
    | 'mode'
    | 'driver'
    | 'typical_count'
    | 'low_h'
    | 'typical_h'
    | 'high_h'
    | 'note'
    | 'basting'
    | 'instead_of'
    | 'makes'
    | 'source',
    string
  >
>;

// Low and high stand for 1 in 10 and 9 in 10: 2 × 1.2816 standard deviations apart on the log scale.
const TENTH_TO_NINTH = new Decimal('2.563');
const NOTES = ['', 'alternative', 'menu', 'ask'];

/**
 * The starting spread of an operation: (ln high − ln low) / 2.563.
 *
 * @param low about the 1-in-10 time, above nought
 * @param high about the 9-in-10 time, not below `low`
 * @returns standard deviation on the log scale, four decimals
 * @see test/domain/making/operation.test.ts
 */
export const startingSpread = (low: Decimal, high: Decimal): Decimal =>
  high.ln().minus(low.ln()).div(TENTH_TO_NINTH).toDecimalPlaces(4);

const fault = (line: OperationLine, field: keyof OperationLine): Invalid =>
  Invalid.field(
    field,
    `Starting operation ${line.garment_type.slice(0, 40)} ${line.no.slice(0, 6)}: “${line[field].slice(0, 40)}” will not do for ${field}.`,
  );

const hours = (line: OperationLine, field: 'low_h' | 'typical_h' | 'high_h'): Decimal => {
  const value = readDecimal(line[field]);
  if (!value?.isPositive() || value.isZero()) throw fault(line, field);
  return value;
};

const times = (line: OperationLine, driver: Driver) => {
  const nought = new Decimal(0);
  if (line.note === 'ask') return { fixedMinutes: nought, minutesPerUnit: nought, needsMinutes: true };
  const [low, typical, high] = [hours(line, 'low_h'), hours(line, 'typical_h'), hours(line, 'high_h')];
  if (low.gt(typical) || typical.gt(high)) throw fault(line, 'typical_h');
  const minutes = typical.times(60);
  const once = driver === 'once';
  return {
    fixedMinutes: once ? minutes : nought,
    minutesPerUnit: once ? nought : minutes,
    needsMinutes: false,
    startingSpread: startingSpread(low, high),
  };
};

/**
 * A known operation out of one line of the starting values.
 *
 * @param line texts by column; hours each for what it goes by, or in all when `driver` is empty
 * @throws Invalid naming the column at fault
 */
export const knownOperation = (line: OperationLine): KnownOperation => {
  const { stage, mode, note } = line;
  const driver = line.driver || 'once';
  if (!isStage(stage)) throw fault(line, 'stage');
  if (!isMode(mode)) throw fault(line, 'mode');
  if (!isDriver(driver)) throw fault(line, 'driver');
  if (!NOTES.includes(note)) throw fault(line, 'note');
  if (!/^[1-9]\d{0,3}$/.test(line.no)) throw fault(line, 'no');
  if (line.operation.trim() === '') throw fault(line, 'operation');
  if (line.source.trim() === '') throw fault(line, 'source');
  const typicalCount = readDecimal(line.typical_count || '1');
  if (!typicalCount?.isPositive()) throw fault(line, 'typical_count');
  const words = (text: string) => text.split(' ').filter((word) => word !== '');
  const makes = words(line.makes).filter(isMake);
  if (makes.length !== words(line.makes).length) throw fault(line, 'makes');
  return {
    garmentType: line.garment_type,
    no: Number(line.no),
    kind: line.kind,
    name: line.operation,
    stage,
    mode,
    driver,
    typicalCount,
    ...times(line, driver),
    basting: line.basting === 'yes',
    isAlternative: note === 'alternative' || note === 'ask',
    insteadOf: words(line.instead_of).map(Number),
    makes,
    isMenu: note === 'menu',
    fromStartingValues: true,
    source: line.source,
  };
};

/**
 * An operation for a plan out of a known one. What is done once but wanted several times goes by each from then on.
 *
 * @param id the new operation's id
 * @param quantity how many of what it goes by; the usual count when left out
 */
export const operationFrom = (known: KnownOperation, id: string, quantity?: Decimal): Operation => {
  const several = known.driver === 'once' && quantity !== undefined && !quantity.eq(1);
  const { kind, name, stage, mode, basting, needsMinutes, fromStartingValues } = known;
  return operation({
    id,
    kind,
    name,
    stage,
    mode,
    modeShares: [],
    basting,
    driver: several ? 'each' : known.driver,
    quantity: quantity ?? (known.driver === 'once' ? new Decimal(1) : known.typicalCount),
    fixedMinutes: several ? new Decimal(0) : known.fixedMinutes,
    minutesPerUnit: several ? known.fixedMinutes : known.minutesPerUnit,
    needsMinutes,
    fromStartingValues,
    shownToClient: false,
    clientWording: '',
    ...(known.startingSpread && { startingSpread: known.startingSpread }),
  });
};
