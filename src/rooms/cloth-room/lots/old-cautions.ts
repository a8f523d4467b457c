import { fileURLToPath } from 'node:url';
import { type Caution, cautionsFor } from '../../../domain/making/caution.js';
import type { KeptCaution, Lot } from '../../../domain/stock/lot.js';
import type { Material } from '../../../domain/stock/material.js';
import { readStarter } from '../../../storage/starter/read-starter.js';

const STARTER = fileURLToPath(new URL('../../../../data/starter', import.meta.url));
/** What any old textile may bring with it; silk may be weighted besides. Old buttons may be of what is no longer used. */
const OF_OLD_TEXTILES = ['green-dyes', 'old-textiles', 'mothball', 'mould'];
const OF_OLD_NOTIONS = ['celluloid', 'ivory'];
let read: Promise<readonly Caution[]> | undefined;

const materialCautions = async (): Promise<readonly Caution[]> => {
  read ??= readStarter(STARTER).then(({ cautions }) => cautions.filter(({ place }) => place === 'materials'));
  return read;
};

type Told = Pick<Lot, 'age' | 'provenance' | 'flaws' | 'smell' | 'believedAge'>;

/**
 * The cautions that belong on a lot's record: those its words call, and, where it is old or nobody knows its age, those of
 * old textiles. What stood on the record before stays, with who put it away.
 */
export const cautionsOn = async (
  { name, kind, fibres, notes }: Pick<Material, 'name' | 'kind' | 'fibres' | 'notes'>,
  lot: Told,
  before: readonly KeptCaution[] = [],
): Promise<KeptCaution[]> => {
  const all = await materialCautions();
  const isOld = lot.age !== 'new';
  const words = [name, fibres, notes, lot.provenance, lot.flaws, lot.smell, lot.believedAge].join(' ');
  const isSilk = /\bsilk\b/i.test(`${name} ${fibres}`);
  const ofTheOld = kind === 'notion' ? OF_OLD_NOTIONS : OF_OLD_TEXTILES;
  const called = cautionsFor(words, all);
  const wanted = all.filter(
    (one) =>
      called.includes(one) ||
      (isOld && (ofTheOld.includes(one.id) || (isSilk && one.id === 'weighted-silk'))),
  );
  const fresh = wanted
    .filter(({ id }) => !before.some((kept) => kept.id === id))
    .map(({ id, sentence }) => ({ id, sentence, dismissedAt: undefined, dismissedBy: undefined }));
  return [...before, ...fresh];
};
