import { Invalid, NotFound } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import type { Lot } from '../../../domain/stock/lot.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { type LotWords, lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { stockBook } from '../../../storage/books/cloth-room/stock-book.js';
import { keepingBook } from '../../../storage/books/house/keeping-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Visit, Writing } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { inWords } from '../stock-fields.js';
import type { CustodySaid, StashSaid } from './lot.form.js';
import { cautionsOn } from './old-cautions.js';

const currencyOf = async (writing: Writing): Promise<string> =>
  (await studioBook.the(writing)).identity.currency;

/** Puts something owned before onto the shelf. */
export const bringInStash = (
  unit: UnitOfWork,
  visit: Visit,
  materialId: string,
  { quantity, on, costIs, unitCost, ...said }: StashSaid,
): Promise<Done<Lot>> =>
  unit.write(visit, async (writing) => {
    const material = await materialBook.one(writing, materialId);
    const currency = await currencyOf(writing);
    const words: LotWords = {
      ...said,
      materialId,
      origin: 'stash',
      purchaseId: undefined,
      lineId: undefined,
      cameOn: on,
      received: quantity,
      unitPrice: undefined,
      landed:
        costIs === 'known' && unitCost
          ? Money.rounded(quantity.times(unitCost), currency)
          : Money.zero(currency),
      costUnknown: costIs === 'unknown',
      ownerId: undefined,
      cautions: await cautionsOn(material, said),
    };
    const { lotId } = await stockBook.bringIn(writing, words, { kind: 'brought-in', on, reason: 'stash' });
    const { locale } = (await studioBook.the(writing)).identity;
    writing.says(
      `Put ${inWords(quantity, material.unit, locale)} of ${material.name} from the stash on the shelf`,
      `lot/${lotId}`,
    );
    return lotBook.one(writing, lotId);
  });

/** Takes a client's own cloth into custody: quantity kept, cost nil, never sold. */
export const takeIntoCustody = (
  unit: UnitOfWork,
  visit: Visit,
  materialId: string,
  { owner, quantity, on, ...said }: CustodySaid,
): Promise<Done<Lot>> =>
  unit.write(visit, async (writing) => {
    const material = await materialBook.one(writing, materialId);
    const client = await clientBook.one(writing, owner).catch((error: unknown) => {
      if (!(error instanceof NotFound)) throw error;
      throw Invalid.field('owner', 'There is no such client.');
    });
    await keepingBook.mustBeKept(writing, client.id);
    const words: LotWords = {
      ...said,
      materialId,
      origin: 'custody',
      purchaseId: undefined,
      lineId: undefined,
      cameOn: on,
      received: quantity,
      unitPrice: undefined,
      landed: Money.zero(await currencyOf(writing)),
      costUnknown: false,
      chargeAt: 'nil',
      chargeReason: 'the client’s own',
      ownerId: client.id,
      cautions: await cautionsOn(material, said),
    };
    const { lotId } = await stockBook.bringIn(writing, words, {
      kind: 'brought-in',
      on,
      reason: `belongs to ${client.name}`,
    });
    await writing.seal(`client/${client.id}`);
    writing.says(`Took ${client.name}’s own ${material.name} into custody`, `lot/${lotId}`);
    return lotBook.one(writing, lotId);
  });
