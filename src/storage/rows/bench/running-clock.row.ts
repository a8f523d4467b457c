import { Entity, ForeignKey } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';
import { PersonRow } from './person.row.js';
import { WorkedOnColumns } from './worked-on.js';

/** A clock that runs, under the key of its person: so there is never a second one. */
@Entity('running_clock')
export class RunningClockRow extends WorkedOnColumns {
  @Key('running_clock') @ForeignKey(() => PersonRow, { name: 'fk_running_clock_person' }) id!: string;
  @Whole() version!: number;
  @Text() begun_at!: string;
}
