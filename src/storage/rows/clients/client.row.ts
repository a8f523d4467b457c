import { Entity, Index } from 'typeorm';
import { Key, OptionalText, Text, Whole, YesNo } from '../columns.js';

@Entity('client')
@Index('ux_client_code', ['code'], { unique: true })
@Index('ix_client_folded', ['folded', 'id'])
export class ClientRow {
  @Key('client') id!: string;
  @Whole() version!: number;
  @Text() code!: string;
  @Text() name!: string;
  /** Name, phone, email and code, folded for finding. */
  @Text() folded!: string;
  @Text() address!: string;
  @Text() country!: string;
  @Text() email!: string;
  @Text() phone!: string;
  @Text() tax_number!: string;
  @Text() notes!: string;
  @YesNo() is_child!: boolean;
  @OptionalText() birth_date!: string | null;
  @Text() guardian!: string;
}
