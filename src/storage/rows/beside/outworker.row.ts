import { Entity, Index } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';

/** Somebody outside who does piece work. */
@Entity('outworker')
@Index('ix_outworker_name', ['folded', 'id'])
export class OutworkerRow {
  @Key('outworker') id!: string;
  @Whole() version!: number;
  @Text() name!: string;
  @Text() reached_at!: string;
  /** A document: list of {work, price}, the price as a decimal. */
  @Text() rates!: string;
  @Text() notes!: string;
  @Text() folded!: string;
}
