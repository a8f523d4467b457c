import { addDays, type CalendarDate } from '../../domain/kernel/calendar-date.js';
import { Decimal } from '../../domain/kernel/decimal.js';
import { Money } from '../../domain/kernel/money.js';
import { addOperation, type MakingPlan } from '../../domain/making/making-plan.js';
import type { Operation } from '../../domain/making/operation.js';
import { openCommission } from '../../rooms/commissions/open-commission.js';
import { estimateBook } from '../../storage/books/estimate-book.js';
import { garmentBook } from '../../storage/books/garment-book.js';
import { planBook } from '../../storage/books/plan-book.js';
import type { Visit, Writing } from '../../storage/session.js';
import type { UnitOfWork } from '../../storage/unit-of-work.js';
import type { DemoCommission, DemoGarment, DemoMaterial, DemoOperation } from './demo-file.js';

/** Opens one invented commission through the room's own use case, then fills in what its garments take. */
export const loadCommission = async (
  unit: UnitOfWork,
  visit: Visit,
  told: DemoCommission,
  idOf: (key: string) => string,
  today: CalendarDate,
): Promise<string> => {
  const opened = addDays(today, -told.openedDaysAgo);
  const { value: commission } = await openCommission(
    unit,
    visit,
    {
      client: { id: idOf(told.client) },
      payer: undefined,
      title: told.title,
      orderNumber: told.orderNumber ?? '',
      wantedBy: addDays(today, told.wantedInDays),
      notes: told.notes,
      garments: told.garments.map((garment) => ({
        typeId: garment.type,
        name: garment.name,
        make: garment.make,
        wearer: garment.wearer ? { id: idOf(garment.wearer) } : undefined,
        dueOn: addDays(today, garment.dueInDays),
        notes: '',
      })),
    },
    opened,
  );
  await unit.write(visit, async (writing) => {
    const garments = await garmentBook.ofCommission(writing, commission.id);
    for (const [index, garment] of garments.entries()) {
      const source = told.garments[index];
      if (source) await fill(writing, garment.id, source);
      for (const expense of told.expenses?.filter((one) => one.garment === index) ?? []) {
        const amount = Money.parse(expense.amount, 'EUR');
        await estimateBook.addExpense(writing, garment.id, {
          name: expense.name,
          amount,
          shownToClient: false,
          clientWording: '',
        });
      }
    }
    writing.says(`Planned ${commission.number}: ${told.title}`, `commission/${commission.id}`);
  });
  return commission.id;
};

const fill = async (writing: Writing, garmentId: string, told: DemoGarment): Promise<void> => {
  const kept = await planBook.of(writing, garmentId);
  const shown = kept.map((operation): Operation => {
    const wording = told.show?.[operation.name];
    return wording === undefined ? operation : { ...operation, shownToClient: true, clientWording: wording };
  });
  const plan = (told.add ?? []).reduce<MakingPlan>(
    (so, one) => addOperation(so, ownOperation(writing.newId(), one)),
    shown,
  );
  await planBook.keep(writing, garmentId, plan);
  for (const material of told.materials)
    await estimateBook.addMaterial(writing, garmentId, materialLine(material));
};

const ownOperation = (id: string, told: DemoOperation): Operation => ({
  id,
  kind: told.kind,
  name: told.name,
  stage: told.stage,
  mode: told.mode,
  modeShares: [],
  basting: false,
  driver: 'once',
  quantity: new Decimal(1),
  fixedMinutes: new Decimal(told.minutes),
  minutesPerUnit: new Decimal(0),
  needsMinutes: false,
  fromStartingValues: false,
  shownToClient: told.show !== undefined,
  clientWording: told.show ?? '',
});

const materialLine = (told: DemoMaterial) => ({
  name: told.name,
  quantity: new Decimal(told.quantity),
  unit: told.unit,
  unitCost: new Decimal(told.unitCost),
  wasteShare: new Decimal(told.wasteShare ?? 0),
  wasteOf: 'net' as const,
  handling: told.handling ?? false,
  replacementUnitCost: told.replacement === undefined ? undefined : new Decimal(told.replacement),
  chargeAt: told.chargeAt ?? (told.replacement === undefined ? ('cost' as const) : ('replacement' as const)),
  shownToClient: told.show !== undefined,
  clientWording: told.show ?? '',
});
