import { foldForSearch } from '../../domain/clients/client.js';
import { Decimal } from '../../domain/kernel/decimal.js';
import { CounterTicketRow } from '../rows/beside/counter-ticket.row.js';
import { LotRow } from '../rows/cloth-room/lot.row.js';
import { CommissionRow } from '../rows/commissions/commission.row.js';
import { GarmentRow } from '../rows/commissions/garment.row.js';
import type { Reading } from '../session.js';

/** A garment with its commission. */
export type OrderedGarment = { readonly id: string; readonly commissionId: string; readonly number: string };

/** The garments somebody ordered, pays for or wears. */
export const garmentsTouching = async (reading: Reading, clientId: string): Promise<OrderedGarment[]> => {
  const rows = await reading.manager
    .createQueryBuilder(GarmentRow, 'garment')
    .innerJoin(CommissionRow, 'commission', 'commission.id = garment.commission_id')
    .select('garment.id', 'id')
    .addSelect('commission.id', 'commissionId')
    .addSelect('commission.number', 'number')
    .where('garment.wearer_id = :client OR commission.client_id = :client OR commission.payer_id = :client', {
      client: clientId,
    })
    .getRawMany<OrderedGarment>();
  return rows;
};

/** Cloth of theirs of which something is left. */
export const clothOfTheirs = async (
  reading: Reading,
  clientId: string,
): Promise<{ code: string; materialId: string }[]> => {
  const lots = await reading.manager.findBy(LotRow, { owner_id: clientId });
  return lots
    .filter(({ left_over }) => new Decimal(left_over).gt(0))
    .map(({ code, material_id }) => ({ code, materialId: material_id }));
};

/** Counter work under their name that was not collected. */
export const notCollected = async (
  reading: Reading,
  name: string,
): Promise<{ id: string; number: string }[]> => {
  const folded = foldForSearch(name);
  const tickets = await reading.manager
    .createQueryBuilder(CounterTicketRow, 'ticket')
    .where('ticket.collected_on IS NULL')
    .getMany();
  return tickets.filter((ticket) => foldForSearch(ticket.name) === folded);
};
