import type { Metadata } from '@napi-rs/image';
import { LONGEST_SIDE, MOST_PHOTO_BYTES, MOST_PIXELS, SMALL_SIDE } from '../../domain/fitting/photo.js';
import { Invalid } from '../../domain/kernel/errors.js';

/** A photograph as it is kept. */
export type RedrawnPhoto = {
  /** JPEG, at most 1,600 pixels long. */
  readonly picture: Uint8Array;
  /** JPEG, at most 320 pixels long. */
  readonly small: Uint8Array;
  readonly width: number;
  readonly height: number;
};

/** The field of the form in which a photograph is chosen. */
export const PHOTO_FIELD = 'photo';
const QUALITY = { whole: 82, small: 76 } as const;

const refused = (text: string): Invalid => Invalid.field(PHOTO_FIELD, text);

export const photoTooLarge = (): Invalid =>
  refused(
    'This photograph is larger than 20 MB, the most that is taken in. Make it smaller and send it again.',
  );

const starts = (bytes: Uint8Array, signs: readonly number[], at = 0): boolean =>
  signs.every((sign, place) => bytes[at + place] === sign);

/** The first bytes of a file say what it is; its name and the type a browser gives it prove nothing. */
const isPhoto = (bytes: Uint8Array): boolean =>
  starts(bytes, [0xff, 0xd8, 0xff]) ||
  starts(bytes, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]) ||
  (starts(bytes, [0x52, 0x49, 0x46, 0x46]) && starts(bytes, [0x57, 0x45, 0x42, 0x50], 8));

/**
 * A photograph drawn anew: turned as it was held, made smaller, without anything the camera wrote beside the pixels
 * (place, time, serial number). Only the pixels go over into the new file.
 *
 * @param bytes JPEG, PNG or WebP of at most 20 MB
 * @throws Invalid when it is larger, no such picture, cut off, or unfolds to more pixels than a photograph has
 * @see JEITA CP-3451 (Exif 2.32) for what is left out; ISO/IEC 10918-1, PNG and RIFF signatures;
 *   test/storage/pictures/redraw-photo.test.ts
 */
export const redrawPhoto = async (bytes: Uint8Array): Promise<RedrawnPhoto> => {
  if (bytes.length === 0) throw refused('Choose a photograph.');
  if (bytes.length > MOST_PHOTO_BYTES) throw photoTooLarge();
  if (!isPhoto(bytes))
    throw refused('This is no photograph that can be taken in. Choose a JPEG, PNG or WebP picture.');
  try {
    return await redrawn(bytes);
  } catch (error) {
    if (error instanceof Invalid) throw error;
    throw refused(
      'This photograph cannot be read: it is cut off, damaged or immense. Send it once more, or another.',
    );
  }
};

const redrawn = async (bytes: Uint8Array): Promise<RedrawnPhoto> => {
  const { Transformer } = await import('@napi-rs/image');
  // What the camera wrote may be damaged where the pixels are not: then the picture stays as it lies.
  const seen = await new Transformer(bytes).metadata(true).catch(() => new Transformer(bytes).metadata());
  if (seen.width * seen.height > MOST_PIXELS)
    throw refused('This photograph has too many pixels. Make it smaller.');
  const picture = await drawn(bytes, seen, LONGEST_SIDE, QUALITY.whole);
  // From the smaller picture: a second look at the large one would cost as much again.
  const { width, height } = await new Transformer(picture).metadata();
  const small = await drawn(picture, { width, height }, SMALL_SIDE, QUALITY.small);
  return { picture, small, width, height };
};

const drawn = async (
  bytes: Uint8Array,
  { width, height, orientation = 1 }: Pick<Metadata, 'width' | 'height' | 'orientation'>,
  longest: number,
  quality: number,
): Promise<Uint8Array> => {
  const { Transformer } = await import('@napi-rs/image');
  // Orientations 5 to 8 lie on their side.
  const [across, down] = orientation > 4 ? [height, width] : [width, height];
  const part = Math.min(1, longest / Math.max(across, down));
  const sized = (side: number): number => Math.max(1, Math.floor(side * part));
  const whole = new Transformer(bytes);
  return (orientation > 1 ? whole.rotate() : whole).resize(sized(across), sized(down)).jpeg(quality);
};
