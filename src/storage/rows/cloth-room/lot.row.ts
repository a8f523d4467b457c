import { Entity, ForeignKey, Index } from 'typeorm';
import { ClientRow } from '../clients/client.row.js';
import { Key, Minor, OptionalText, Text, Whole, YesNo } from '../columns.js';
import { MaterialRow } from './material.row.js';
import { PurchaseRow } from './purchase.row.js';

/** One delivery of a material, with what is left of it. */
@Entity('lot')
@Index('ix_lot_material', ['material_id', 'id'])
@Index('ix_lot_purchase', ['purchase_id', 'id'])
@Index('ix_lot_line', ['line_id'])
export class LotRow {
  @Key('lot') id!: string;
  @Whole() version!: number;
  @Text() code!: string;
  @Text() @ForeignKey(() => MaterialRow, { name: 'fk_lot_material' }) material_id!: string;
  /** `bought`, `stash`, `offcut` or `custody`. */
  @Text() origin!: string;
  @OptionalText() @ForeignKey(() => PurchaseRow, { name: 'fk_lot_purchase' }) purchase_id!: string | null;
  /** The planned line it was bought for; the line may have gone since. */
  @OptionalText() line_id!: string | null;
  @Text() came_on!: string;
  @Text() received!: string;
  @OptionalText() unit_price!: string | null;
  @Minor() landed!: number;
  @YesNo() cost_unknown!: boolean;
  /** Follows the movements. */
  @Text() left_over!: string;
  @Minor() value!: number;
  @Text() width!: string;
  @Text() width_mm!: string;
  @Text() dye_lot!: string;
  @Text() flaws!: string;
  /** `new`, `old` or `unknown`. */
  @Text() age!: string;
  @Text() believed_age!: string;
  @Text() provenance!: string;
  @OptionalText() replacement_unit_cost!: string | null;
  @Text() charge_at!: string;
  @Text() charge_reason!: string;
  /** Whose cloth it is, when it is not ours. */
  @OptionalText() @ForeignKey(() => ClientRow, { name: 'fk_lot_client' }) owner_id!: string | null;
  @Text() smell!: string;
  @Text() shrink_test!: string;
  /** Cautions kept on the record, JSON. */
  @Text() cautions!: string;
}
