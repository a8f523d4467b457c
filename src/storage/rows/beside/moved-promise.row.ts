import { Entity, Index } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';

/** A promised date that moved because the workroom is closed. */
@Entity('moved_promise')
@Index('ix_moved_promise_garment', ['garment_id'])
@Index('ix_moved_promise_span', ['span_id'])
export class MovedPromiseRow {
  @Key('moved_promise') id!: string;
  @Whole() version!: number;
  @Text() span_id!: string;
  /** The garment may be taken out of its commission later. */
  @Text() garment_id!: string;
  @Text() was_on!: string;
  @Text() now_on!: string;
}
