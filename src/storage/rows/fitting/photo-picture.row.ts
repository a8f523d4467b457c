import { Entity, ForeignKey } from 'typeorm';
import { Key, Text, Whole } from '../columns.js';
import { PhotoRow } from './photo.row.js';

/** The bytes of a photograph, drawn anew without what the camera wrote. The history never keeps them. */
@Entity('photo_picture')
export class PhotoPictureRow {
  @Key('photo_picture') @ForeignKey(() => PhotoRow, { name: 'fk_photo_picture_photo' }) id!: string;
  @Whole() version!: number;
  /** Base64 of a JPEG, at most 1,600 pixels long. */
  @Text() picture_bytes!: string;
  /** The same, at most 320 pixels long. */
  @Text() small_bytes!: string;
}
