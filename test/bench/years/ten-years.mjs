// Ten or twenty years of an invented workroom, straight into the tables, the same rows for the same seed.
import { seeded } from '../../../dist/domain/estimating/chance/draws.js';
import { addDays } from '../../../dist/domain/kernel/calendar-date.js';
import { entryRow, frozen, operationRow, stockOf, tableOf } from './rows.mjs';

/** Entries and issues are of one garment; twenty years have a million entries at the bench. */
export const SIZES = {
  'ten-years': { days: 3650, commissions: 500, garments: 4, entries: 50, issues: 10, open: 8 },
  'twenty-years': { days: 7300, commissions: 1000, garments: 4, entries: 250, issues: 10, open: 8 },
};
const WORK = [
  ['draft', 'desk', 'draft the pattern', 90],
  ['cut', 'bench', 'lay and cut', 75],
  ['cut', 'hand', 'thread marks', 60],
  ['baste', 'hand', 'baste the fronts', 45],
  ['baste', 'hand', 'baste the seams', 55],
  ['fit', 'fitting', 'first fitting', 60],
  ['fit', 'bench', 'rip down and mark', 50],
  ['make', 'hand', 'pad stitch', 120],
  ['make', 'machine', 'pockets', 150],
  ['make', 'machine', 'seams', 80],
  ['make', 'press', 'press open', 40],
  ['make', 'hand', 'set the collar', 95],
  ['make', 'hand', 'set the sleeves', 110],
  ['make', 'machine', 'lining', 90],
  ['make', 'hand', 'fell the lining', 130],
  ['fit', 'fitting', 'second fitting', 45],
  ['finish', 'hand', 'buttonholes', 160],
  ['finish', 'hand', 'buttons', 35],
  ['finish', 'press', 'press off', 60],
  ['finish', 'hand', 'hem', 70],
];

/**
 * Fills a studio that holds a house, clients and garments already.
 *
 * @param source the connection that writes, on SQLite
 * @param house.clients, house.types ids that are there; house.person somebody whose minutes are kept; house.today
 * @param size one of SIZES
 * @returns how many rows went into each table
 */
export async function fillYears(source, house, size, seed = 20_261_125) {
  const next = seeded(seed);
  const pick = (list) => list[Math.floor(next() * list.length)];
  let made = 0;
  const counts = {};
  const idOn = (day) => {
    made += 1;
    const at = (Date.parse(`${day}T08:00:00Z`) + (made % 30_000)).toString(16).padStart(12, '0');
    const rest = made.toString(16).padStart(12, '0');
    return `${at.slice(0, 8)}-${at.slice(8)}-7${made.toString(16).padStart(3, '0').slice(-3)}-8000-${rest}`;
  };
  const names = [
    'commission',
    'garment',
    'operation',
    'bench_entry',
    'garment_mark',
    'stock_entry',
    'stock_part',
  ];
  const tables = Object.fromEntries(names.map((name) => [name, tableOf(source, name)]));
  const put = (name, row) => {
    counts[name] = (counts[name] ?? 0) + 1;
    return tables[name].add(row);
  };
  await source.query('BEGIN');
  // Rows go in table by table, as each is full: what refers to what is looked at once, at the end.
  await source.query('PRAGMA defer_foreign_keys = ON');
  const [like] = await source.query('SELECT * FROM commission LIMIT 1');
  const shelf = await stockOf(source, house, idOn);
  for (let c = 0; c < size.commissions; c += 1) {
    const day = addDays(house.today, -size.days + Math.floor((c * (size.days - 50)) / size.commissions));
    const isOpen = c >= size.commissions - size.open;
    const commission = idOn(day);
    const number = `T-${String(c + 1).padStart(4, '0')}`;
    const client = pick(house.clients);
    await put('commission', {
      ...like,
      id: commission,
      number,
      client_id: client,
      payer_id: null,
      title: `Order ${number}`,
      opened_on: day,
      wanted_by: null,
      folded: `order ${number.toLowerCase()}`,
    });
    for (let g = 0; g < size.garments; g += 1) {
      const garment = idOn(day);
      const typeId = pick(house.types);
      const due = isOpen ? addDays(house.today, 10 + g * 7) : addDays(day, 60);
      const name = `${typeId.replaceAll('-', ' ')} ${g + 1}`;
      await put('garment', {
        id: garment,
        version: 1,
        commission_id: commission,
        place: g + 1,
        name,
        type_id: typeId,
        make: 'hand-where-it-shows',
        wearer_id: client,
        due_on: due,
        notes: '',
        own_price: null,
      });
      const operations = [];
      for (const [place, [stage, mode, kind, minutes]] of WORK.entries()) {
        const operation = {
          id: idOn(day),
          kind,
          stage,
          mode,
          minutes: Math.floor(minutes * (0.8 + 0.4 * next())),
        };
        operations.push(operation);
        await put('operation', operationRow(operation, garment, place + 1));
      }
      await workOn({
        put,
        idOn,
        next,
        house,
        day,
        commission,
        garment,
        name,
        operations,
        isOpen,
        typeId,
        shelf,
        size,
      });
    }
  }
  for (const table of Object.values(tables)) await table.flush();
  await source.query('COMMIT');
  return counts;
}

async function workOn({
  put,
  idOn,
  next,
  house,
  day,
  commission,
  garment,
  name,
  operations,
  isOpen,
  typeId,
  shelf,
  size,
}) {
  const took = new Map();
  const done = isOpen ? Math.floor(next() * 15) : operations.length;
  const shared = 0.8 + 0.6 * next();
  for (let n = 0; n < size.entries; n += 1) {
    const operation = operations[n % Math.max(1, done)];
    const part = Math.max(
      2,
      Math.floor(
        (operation.minutes * shared * (0.7 + 0.6 * next())) / Math.ceil(size.entries / Math.max(1, done)),
      ),
    );
    const on = isOpen
      ? addDays(house.today, -20 + (n % 20))
      : addDays(day, 3 + Math.floor((n * 25) / size.entries));
    took.set(operation.id, (took.get(operation.id) ?? 0) + part);
    await put(
      'bench_entry',
      entryRow({ id: idOn(on), on, operation, part, commission, garment, name, house }),
    );
  }
  const mark = (kind, on, operation, document = '') =>
    put('garment_mark', {
      id: idOn(on),
      version: 1,
      garment_id: garment,
      commission_id: commission,
      kind,
      operation_id: operation ?? null,
      on_day: on,
      who: house.person.name,
      words: '',
      document,
      of_id: null,
      written_at: `${on}T16:00:00Z`,
    });
  const last = isOpen ? house.today : addDays(day, 50);
  await mark('cut', isOpen ? addDays(house.today, -20) : addDays(day, 4));
  for (const { id } of operations.slice(0, isOpen ? Math.max(0, done - 1) : operations.length))
    await mark('operation-finished', last, id);
  for (let n = 0; n < size.issues; n += 1) {
    const { material, lot } = shelf[Math.floor(next() * shelf.length)];
    const entry = idOn(last);
    const cost = -(300 + Math.floor(next() * 4000));
    await put('stock_entry', {
      id: entry,
      version: 1,
      kind: 'issue',
      material_id: material,
      on_day: last,
      written_at: `${last}T09:00:00Z`,
      who: house.person.name,
      quantity: '-1',
      cost,
      commission_id: commission,
      garment_id: garment,
      garment_name: name,
      line_id: null,
      purchase_id: null,
      of_id: null,
      reason: '',
    });
    await put('stock_part', {
      id: idOn(last),
      version: 1,
      entry_id: entry,
      lot_id: lot,
      quantity: '-1',
      cost,
    });
  }
  if (isOpen) return;
  await mark('delivered', addDays(last, 2));
  await mark(
    'closed',
    addDays(last, 5),
    null,
    frozen({ commission, garment, name, typeId, operations, took, on: addDays(last, 5) }),
  );
}
