// Rows of the tables as they stand in the file, for what is put in without the program.
import { addDays } from '../../../dist/domain/kernel/calendar-date.js';
import { closedGarmentText } from '../../../dist/domain/lessons/closed-garment.js';

/** As many parameters as SQLite takes in one statement. */
const MOST_PARAMETERS = 30_000;

/** Rows of one table, gathered and put in by as few statements as may be. */
export const tableOf = (source, name) => {
  let columns;
  let rows = [];
  const flush = async () => {
    if (rows.length === 0) return;
    const one = `(${columns.map(() => '?').join(',')})`;
    const params = rows.flatMap((row) => columns.map((column) => row[column]));
    const names = columns.map((column) => `"${column}"`).join(',');
    await source.query(`INSERT INTO "${name}" (${names}) VALUES ${rows.map(() => one).join(',')}`, params);
    rows = [];
  };
  return {
    flush,
    async add(row) {
      columns ??= Object.keys(row);
      rows.push(row);
      if (rows.length * columns.length > MOST_PARAMETERS - columns.length) await flush();
    },
  };
};

export const operationRow = ({ id, kind, stage, mode, minutes }, garment, place) => ({
  id,
  version: 1,
  garment_id: garment,
  place,
  kind,
  name: kind,
  stage,
  mode,
  mode_shares: '[]',
  basting: 0,
  driver: 'once',
  quantity: '1',
  fixed_minutes: String(minutes),
  minutes_per_unit: '0',
  needs_minutes: 0,
  starting_spread: null,
  from_starting_values: 0,
  hand_stitch: null,
  shown_to_client: 0,
  client_wording: '',
});

export const entryRow = ({ id, on, operation, part, commission, garment, name, house }) => ({
  commission_id: commission,
  garment_id: garment,
  garment_name: name,
  operation_id: operation.id,
  kind: operation.kind,
  name: operation.kind,
  stage: '',
  mode: operation.mode,
  away: '',
  cause: '',
  extra_id: null,
  id,
  version: 1,
  person_id: house.person.id,
  person_name: house.person.name,
  minutes: part,
  on_day: on,
  begun_at: `${on}T09:00:00Z`,
  ended_at: `${on}T09:30:00Z`,
  way: 'clock',
  of_id: null,
  note: '',
  written_at: `${on}T09:30:00Z`,
});

export const frozen = ({ commission, garment, name, typeId, operations, took, on }) => {
  const lines = operations.map(({ id, kind, mode, stage, minutes }) => ({
    operationId: id,
    kind,
    name: kind,
    mode,
    stage,
    plannedMinutes: minutes,
    actualMinutes: took.get(id) ?? 0,
    ownErrorMinutes: 0,
    leftOut: !took.has(id),
    forgotten: false,
    changeNotReplanned: false,
  }));
  const sum = (of) => lines.reduce((all, line) => all + of(line), 0);
  return closedGarmentText({
    garmentId: garment,
    commissionId: commission,
    name,
    typeId,
    closedOn: on,
    begunOn: undefined,
    endedOn: undefined,
    repeat: 1,
    operations: lines,
    totals: {
      plannedMinutes: sum((line) => line.plannedMinutes),
      actualMinutes: sum((line) => line.actualMinutes),
      ownErrorMinutes: 0,
      besideMinutes: 0,
    },
  });
};

/** Sixty materials with a lot each, large enough for ten years. */
export async function stockOf(source, house, idOn) {
  const shelf = [];
  const day = addDays(house.today, -3650);
  for (let n = 0; n < 60; n += 1) {
    const [material, lot] = [idOn(day), idOn(day)];
    const row = async (table, values) => {
      const columns = await columnsOf(source, table);
      const all = Object.fromEntries(
        columns.map(({ name, type, notnull }) => [name, notnull ? (/INT/i.test(type) ? 0 : '') : null]),
      );
      const whole = { ...all, ...values };
      const names = Object.keys(whole);
      await source.query(
        `INSERT INTO "${table}" (${names.map((name) => `"${name}"`).join(',')}) VALUES (${names.map(() => '?').join(',')})`,
        Object.values(whole),
      );
    };
    await row('material', {
      id: material,
      version: 1,
      name: `Cloth no. ${n}`,
      folded: `cloth no ${n}`,
      kind: 'cloth',
      unit: 'm',
      fibres: '[]',
      method: 'weighted-average',
    });
    await row('lot', {
      id: lot,
      version: 1,
      code: `T${n}`,
      material_id: material,
      origin: 'bought',
      came_on: day,
      received: '5000',
      landed: 10_000_000,
      left_over: '1000',
      value: 2_000_000,
      charge_at: 'cost',
      shrink_test: '',
      cautions: '[]',
    });
    shelf.push({ material, lot });
  }
  return shelf;
}

const columnsOf = (source, table) => source.query(`PRAGMA table_info("${table}")`);
