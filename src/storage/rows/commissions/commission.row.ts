import { Entity, ForeignKey, Index } from 'typeorm';
import { ClientRow } from '../clients/client.row.js';
import { Key, Minor, OptionalMinor, OptionalText, Text, Whole } from '../columns.js';

/** One client's order, with the pricing choices its garments are priced by. */
@Entity('commission')
@Index('ux_commission_number', ['number'], { unique: true })
@Index('ix_commission_client', ['client_id', 'id'])
export class CommissionRow {
  @Key('commission') id!: string;
  @Whole() version!: number;
  @Text() number!: string;
  @Text() @ForeignKey(() => ClientRow, { name: 'fk_commission_client' }) client_id!: string;
  /** Who pays, where it is not the client. */
  @OptionalText() @ForeignKey(() => ClientRow, { name: 'fk_commission_payer' }) payer_id!: string | null;
  /** What it is called in the workroom: `three-piece in hand-woven tweed`. */
  @Text() title!: string;
  /** The client's own order number. */
  @Text() order_number!: string;
  @Text() opened_on!: string;
  @OptionalText() wanted_by!: string | null;
  @Text() notes!: string;
  /** Folded for finding. */
  @Text() folded!: string;
  @Text() certainty!: string;
  @Text() profit_basis!: string;
  @Text() profit_share!: string;
  @Text() handling_share!: string;
  @OptionalMinor() minimum_charge!: number | null;
  @Text() rush_share!: string;
  @Text() rush_on!: string;
  @Minor() round_to!: number;
  @Minor() discount!: number;
  @Text() deposit_rule!: string;
  @Text() deposit_share!: string;
}
