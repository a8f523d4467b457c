import { STRUCK } from '../../domain/clients/strike-out.js';
import { BenchEntryRow } from '../rows/bench/bench-entry.row.js';
import { ExtraRow } from '../rows/bench/extra.row.js';
import { CounterTicketRow } from '../rows/beside/counter-ticket.row.js';
import { EnquiryRow } from '../rows/beside/enquiry.row.js';
import { OutworkTicketRow } from '../rows/beside/outwork-ticket.row.js';
import { ClientRow } from '../rows/clients/client.row.js';
import { ClientKeepingRow } from '../rows/clients/client-keeping.row.js';
import { ClientPaperRow } from '../rows/clients/client-paper.row.js';
import { MeasuredValueRow } from '../rows/clients/measured-value.row.js';
import { MeasurementSetRow } from '../rows/clients/measurement-set.row.js';
import { LotRow } from '../rows/cloth-room/lot.row.js';
import { ReservationRow } from '../rows/cloth-room/reservation.row.js';
import { StockEntryRow } from '../rows/cloth-room/stock-entry.row.js';
import { CommissionRow } from '../rows/commissions/commission.row.js';
import { ExpenseLineRow } from '../rows/commissions/expense-line.row.js';
import { GarmentRow } from '../rows/commissions/garment.row.js';
import { GarmentMarkRow } from '../rows/commissions/garment-mark.row.js';
import { MaterialLineRow } from '../rows/commissions/material-line.row.js';
import { OperationRow } from '../rows/commissions/operation.row.js';
import { CorrectionRow } from '../rows/fitting/correction.row.js';
import { FittingRow } from '../rows/fitting/fitting.row.js';
import { PatternRow } from '../rows/fitting/pattern.row.js';
import { PatternUseRow } from '../rows/fitting/pattern-use.row.js';
import { PhotoRow } from '../rows/fitting/photo.row.js';
import { PhotoPictureRow } from '../rows/fitting/photo-picture.row.js';
import { MoneyOutRow } from '../rows/money-out/money-out.row.js';
import { type Holding, holding } from './holding.js';
import { paperHoldings } from './paper-holdings.js';

const formerClient = (code: string): string => `Former client ${code}`;

const clientsCard = holding<ClientRow>({
  row: ClientRow,
  name: 'Card',
  by: { id: 'client' },
  erased: ({ code }) => ({
    name: formerClient(code),
    // Found by no name and no number any more: their papers are.
    folded: '',
    address: '',
    country: '',
    email: '',
    phone: '',
    tax_number: '',
    notes: '',
    is_child: false,
    birth_date: null,
    guardian: '',
  }),
});

/** Everything that can hang on a client, parts before what they are parts of. A new kind is one more line here. */
export const holdings: readonly Holding[] = [
  holding<ClientPaperRow>({ row: ClientPaperRow, by: { id: 'client' }, erased: 'goes' }),
  holding<ClientKeepingRow>({ row: ClientKeepingRow, by: { id: 'client' }, erased: 'stays' }),
  holding<MeasuredValueRow>({
    row: MeasuredValueRow,
    name: 'Measured values',
    by: { set_id: 'set' },
    erased: 'goes',
  }),
  holding<MeasurementSetRow>({
    row: MeasurementSetRow,
    name: 'Measurements',
    by: { client_id: 'client' },
    erased: 'goes',
  }),
  holding<PhotoPictureRow>({ row: PhotoPictureRow, by: { id: 'photo' }, erased: 'goes' }),
  holding<PhotoRow>({ row: PhotoRow, name: 'Photographs', by: { id: 'photo' }, erased: 'goes' }),
  holding<PatternUseRow>({ row: PatternUseRow, by: { pattern_id: 'pattern' }, erased: 'goes' }),
  holding<PatternRow>({ row: PatternRow, name: 'Patterns', by: { client_id: 'client' }, erased: 'goes' }),
  holding<CorrectionRow>({
    row: CorrectionRow,
    name: 'Corrections at fittings',
    by: { fitting_id: 'fitting', garment_id: 'garment' },
    erased: 'goes',
  }),
  holding<FittingRow>({
    row: FittingRow,
    name: 'Fittings',
    by: { id: 'fitting' },
    erased: () => ({ present: '', worn: '', guardian: '', notes: '', reason: '', pattern_words: '' }),
  }),
  holding<EnquiryRow>({ row: EnquiryRow, name: 'Enquiries', by: { id: 'enquiry' }, erased: 'goes' }),
  holding<CounterTicketRow>({
    row: CounterTicketRow,
    name: 'Counter work',
    by: { id: 'counter' },
    erased: ({ number }) => ({
      name: STRUCK,
      reached_at: '',
      what: '',
      found: '',
      notes: '',
      collected_by: '',
      folded: number.toLowerCase(),
    }),
  }),
  holding<CommissionRow>({
    row: CommissionRow,
    name: 'Commissions',
    by: { client_id: 'client' },
    erased: ({ number }) => ({ title: '', order_number: '', notes: '', folded: number.toLowerCase() }),
    unsaid: [
      'certainty',
      'profit_basis',
      'profit_share',
      'handling_share',
      'minimum_charge',
      'rush_share',
      'round_to',
    ],
  }),
  holding<GarmentRow>({
    row: GarmentRow,
    name: 'Garments',
    by: { id: 'garment' },
    erased: () => ({ notes: '' }),
  }),
  holding<GarmentMarkRow>({
    row: GarmentMarkRow,
    by: { garment_id: 'garment' },
    // What a closed garment teaches is minutes and money; the others froze measurements, a signature and remarks.
    erased: ({ kind }) => ({ words: '', ...(kind === 'closed' ? {} : { document: '' }) }),
  }),
  holding<OperationRow>({ row: OperationRow, by: { garment_id: 'ordered' }, erased: 'struck' }),
  holding<MaterialLineRow>({ row: MaterialLineRow, by: { garment_id: 'ordered' }, erased: 'struck' }),
  holding<ExpenseLineRow>({ row: ExpenseLineRow, by: { garment_id: 'ordered' }, erased: 'struck' }),
  holding<BenchEntryRow>({
    row: BenchEntryRow,
    by: { commission_id: 'commission' },
    erased: () => ({ note: '' }),
  }),
  holding<ExtraRow>({
    row: ExtraRow,
    name: 'Changes agreed',
    by: { commission_id: 'commission' },
    erased: () => ({ by_whom: STRUCK, words: '' }),
    unsaid: ['work'],
  }),
  holding<OutworkTicketRow>({
    row: OutworkTicketRow,
    by: { commission_id: 'commission' },
    erased: () => ({ notes: '', found: '' }),
  }),
  holding<MoneyOutRow>({ row: MoneyOutRow, by: { commission_id: 'commission' }, erased: 'struck' }),
  holding<StockEntryRow>({ row: StockEntryRow, by: { commission_id: 'commission' }, erased: 'struck' }),
  holding<ReservationRow>({ row: ReservationRow, by: { commission_id: 'commission' }, erased: 'struck' }),
  holding<LotRow>({
    row: LotRow,
    name: 'Cloth of theirs',
    by: { owner_id: 'client' },
    erased: () => ({ provenance: '' }),
  }),
  ...paperHoldings,
  clientsCard,
];

/** Tables that hold nothing on a client; a new table stands here or among the holdings. */
export const HOLDS_NOBODY = new Set(
  `act change once studio paper_choice studio_mark account sign_in_session api_token series body_dimension garment_type
   known_operation rate_card standing_price own_guess past_garment past_work supplier material purchase stock_part
   shopping_tick thread_ratio person paired_phone pairing_code running_clock bank_import fitting_garment photo_rule
   calendar_key outworker paid_out closed_day moved_promise keeping_rule`.split(/\s+/),
);
