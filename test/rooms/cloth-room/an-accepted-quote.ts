import { createHash } from 'node:crypto';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { estimateBook } from '../../../src/storage/books/estimate-book.js';
import { quoteAnswerBook } from '../../../src/storage/books/papers/quote-answer-book.js';
import { quoteBook } from '../../../src/storage/books/papers/quote-book.js';
import { documentText } from '../../../src/storage/books/papers/quote-text.js';
import type { TestStudio } from '../../support/studio.js';
import { aCommission, type ToMake } from '../quotes/a-commission.js';

/** Plans a material for a garment; answers the line's id. */
export const plan = async (
  studio: TestStudio,
  garmentId: string,
  name: string,
  quantity: string,
  unitCost: string,
  waste = '0',
): Promise<string> =>
  (
    await studio.unit.write(studio.visit, async (writing) => {
      const id = await estimateBook.addMaterial(writing, garmentId, {
        name,
        quantity: new Decimal(quantity),
        unit: 'm',
        unitCost: new Decimal(unitCost),
        wasteShare: new Decimal(waste),
        wasteOf: 'net',
        handling: false,
        replacementUnitCost: undefined,
        chargeAt: 'cost',
        shownToClient: false,
        clientWording: '',
      });
      writing.says(`Planned ${name}`, 'commission');
      return id;
    })
  ).value;

/** An order of garments without cloth. */
export const anOrder = (studio: TestStudio, garments: readonly ToMake[] = [{ name: 'Jacket' }]) =>
  aCommission(studio, garments);

/** Accepts what a commission plans now, without going through the printer. */
export const accepted = async (
  studio: TestStudio,
  order: { id: string; clientId: string; garments: readonly string[] },
  taken?: readonly string[],
): Promise<string> =>
  (
    await studio.unit.write(studio.visit, async (writing) => {
      const garments = await Promise.all(
        order.garments.map(async (ref) => ({
          ref,
          materials: await estimateBook.materialsOf(writing, ref),
        })),
      );
      const pdf = Buffer.from('%PDF-1.7');
      const number = `Q-${order.id.slice(-12)}`;
      const id = await quoteBook.issue(writing, {
        commissionId: order.id,
        clientId: order.clientId,
        number,
        edition: 1,
        clientName: 'Corvin Haddlestone',
        title: 'Three-piece',
        issuedOn: '2026-03-02',
        validUntil: undefined,
        total: Money.parse('2400.00', 'EUR'),
        document: '{}',
        costs: documentText({ garments }),
        sha256: createHash('sha256').update(pdf).digest('hex'),
        pdf,
        foundBy: number,
      });
      await quoteAnswerBook.put(writing, id, {
        answer: 'accepted',
        answeredOn: '2026-03-02',
        byWhom: 'Corvin Haddlestone',
        how: 'in person',
        words: '',
        taken,
        corrects: undefined,
      });
      writing.says('Accepted a quote', `commission/${order.id}`);
      return id;
    })
  ).value;
