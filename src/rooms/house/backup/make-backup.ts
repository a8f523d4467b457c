import { NotAllowed } from '../../../domain/kernel/errors.js';
import type { Backup, Backups } from '../../../storage/backup/backups.js';
import type { UnitOfWork } from '../../../storage/unit-of-work.js';
import type { SignedIn } from '../../../web/visit.js';

/** A backup holds everything, what others may not see included. @throws NotAllowed */
export const mustBeOwner = (hand: SignedIn): void => {
  if (hand.role !== 'owner') throw new NotAllowed('Only the owner of the studio may handle backups.');
};

/** @throws NotAllowed unless it is the owner's hand */
export const makeBackup = async (unit: UnitOfWork, backups: Backups, hand: SignedIn): Promise<Backup> => {
  mustBeOwner(hand);
  // Nothing is changed; the empty write takes the once-only key, so that two presses make one backup.
  await unit.write(hand, async () => undefined);
  const { counts: _, ...backup } = await backups.make();
  return backup;
};
