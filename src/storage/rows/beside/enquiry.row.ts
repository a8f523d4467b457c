import { Entity, ForeignKey, Index } from 'typeorm';
import { ClientRow } from '../clients/client.row.js';
import { Key, OptionalText, Text, Whole } from '../columns.js';
import { CommissionRow } from '../commissions/commission.row.js';

/** Somebody asked for something to be made. */
@Entity('enquiry')
@Index('ix_enquiry_state', ['state', 'id'])
export class EnquiryRow {
  @Key('enquiry') id!: string;
  @Whole() version!: number;
  @Text() name!: string;
  @Text() reached_at!: string;
  @Text() what!: string;
  @Text() asked_on!: string;
  @OptionalText() wanted_by!: string | null;
  /** `waiting`, `invited`, `commissioned`, `declined` or `lapsed`. */
  @Text() state!: string;
  @OptionalText() next_on!: string | null;
  @Text() notes!: string;
  @OptionalText() @ForeignKey(() => ClientRow, { name: 'fk_enquiry_client' }) client_id!: string | null;
  @OptionalText()
  @ForeignKey(() => CommissionRow, { name: 'fk_enquiry_commission' })
  commission_id!: string | null;
  @Text() folded!: string;
}
