import { Invalid } from '../../../domain/kernel/errors.js';
import { garmentType } from '../../../domain/making/garment-type.js';
import type { BodyDimension } from '../../../domain/measuring/body-dimension.js';
import { type KeptType, makingBook } from '../../../storage/books/making-book.js';
import { dimensionBook } from '../../../storage/books/measuring/dimension-book.js';
import type { Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { Asked } from '../../../web/forms/form.js';
import { dimensionNamed } from '../measurements/name-dimensions.js';
import type { MeasuringListWords } from './measuring-list.form.js';

/**
 * Changes what is measured for a type of garment. Sets taken before keep what they hold.
 *
 * @throws Asked when a name is not known yet and was not said to be new
 */
export const changeMeasuringList = (
  unit: UnitOfWork,
  visit: Visit,
  typeId: string,
  words: MeasuringListWords,
  seen?: number,
): Promise<Done<KeptType>> =>
  unit.write(visit, async (writing) => {
    const type = await makingBook.type(writing, typeId);
    const known: BodyDimension[] = await dimensionBook.all(writing);
    const unknown = words.list.filter((name) => !dimensionNamed(known, name));
    if (unknown.length > 0 && !words.isNew) throw askAbout(unknown);
    const list: string[] = [];
    for (const name of words.list) {
      let dimension = dimensionNamed(known, name);
      if (!dimension) {
        dimension = await dimensionBook.addOwn(writing, name);
        known.push(dimension);
      }
      if (list.includes(dimension.id)) throw Invalid.field('list', `“${name}” stands twice in the list.`);
      list.push(dimension.id);
    }
    const { version: _, ...present } = type;
    await makingBook.changeType(writing, garmentType({ ...present, measuringList: list }), seen);
    writing.says(`Changed the measuring list of ${type.name}`, `garment-type/${typeId}`);
    return makingBook.type(writing, typeId);
  });

const askAbout = (unknown: readonly string[]): Asked => {
  const names = unknown.slice(0, 5).map((name) => `“${name}”`);
  const more = unknown.length > 5 ? ` and ${unknown.length - 5} more` : '';
  const text = `${names.join(', ')}${more}: not measured here yet. Keep as new?`;
  return new Asked([{ field: 'list', text, confirmName: 'confirm.list' }]);
};
