import { Entity, Index } from 'typeorm';
import { Key, OptionalText, Text, YesNo } from '../rows/columns.js';

/** One thing somebody did: it groups the changes of one transaction and says them in a sentence. */
@Entity('act')
@Index('ix_act_subject', ['subject', 'id'])
export class ActRow {
  @Key('act') id!: string;
  @Text() at!: string;
  @Text() who_id!: string;
  @Text() who_name!: string;
  /** What it was about, as a path: `client/…`, `commission/…/garment/…`. */
  @Text() subject!: string;
  @Text() sentence!: string;
  @YesNo() undoable!: boolean;
  /** The act that this one undoes. */
  @OptionalText() undoes!: string | null;
  /** The act that undid this one. */
  @OptionalText() undone_by!: string | null;
}
