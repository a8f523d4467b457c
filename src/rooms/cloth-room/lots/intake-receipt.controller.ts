import { Controller, Get, Param } from '@nestjs/common';
import { NotFound } from '../../../domain/kernel/errors.js';
import { ENTRY_WORDS } from '../../../domain/stock/entry.js';
import { PdfPrinter } from '../../../printing/browser/pdf-printer.js';
import { type IntakeReceipt, printedIntakeReceipt } from '../../../printing/papers/intake-receipt.js';
import { Templates } from '../../../printing/templates/templates.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { entryBook } from '../../../storage/books/cloth-room/entry-book.js';
import { lotBook } from '../../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../../storage/books/cloth-room/material-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import { file, type Reply } from '../../../web/reply.js';
import { dateInWords } from '../../../web/words/dates.js';
import { inWords, rateInWords } from '../stock-fields.js';

/** The receipt a client signs and takes home for their own cloth. */
@Controller('cloth-room/lots/:id/receipt.pdf')
export class IntakeReceiptController {
  constructor(
    private readonly read: ReadSide,
    private readonly templates: Templates,
    private readonly printer: PdfPrinter,
  ) {}

  @Get()
  async print(@Param('id') id: string): Promise<Reply> {
    const receipt = await this.receipt(id);
    const { html, sheet } = printedIntakeReceipt(this.templates, receipt);
    const bytes = await this.printer.print(html, sheet);
    return file(bytes, 'application/pdf', `receipt-${receipt.code}.pdf`, true);
  }

  /** @throws NotFound for cloth that is nobody's but ours */
  private async receipt(id: string): Promise<IntakeReceipt> {
    const lot = await lotBook.one(this.read, id);
    if (lot.ownerId === undefined) throw new NotFound('receipt');
    const { name, unit } = await materialBook.one(this.read, lot.materialId);
    const owner = await clientBook.one(this.read, lot.ownerId);
    const { identity } = await studioBook.the(this.read);
    const length = (amount: typeof lot.left): string => inWords(amount, unit, identity.locale);
    const entries = (await entryBook.ofMaterial(this.read, lot.materialId, 500)).flatMap((entry) => {
      const part = entry.parts.find(({ lotId }) => lotId === id);
      return part && entry.kind !== 'brought-in' ? [{ entry, part }] : [];
    });
    return {
      language: identity.locale,
      studio: identity.name,
      client: owner.name,
      code: lot.code,
      cloth: name,
      date: dateInWords(lot.cameOn),
      condition: [
        { label: 'Length by the tape', text: length(lot.received) },
        { label: 'Width', text: lot.width.shown },
        { label: 'Flaws', text: lot.flaws },
        { label: 'Smell', text: lot.smell },
        { label: 'Shrink test', text: lot.shrinkTest },
        { label: 'Believed age', text: lot.believedAge },
        {
          label: 'Worth of one, by the client',
          text: lot.replacementUnitCost
            ? `${rateInWords(lot.replacementUnitCost, identity.locale)} ${identity.currency}`
            : '',
        },
      ].filter(({ text }) => text !== ''),
      since: entries.reverse().map(({ entry, part }) => ({
        day: dateInWords(entry.on),
        what: [ENTRY_WORDS[entry.kind], entry.garmentName, entry.reason].filter(Boolean).join(', '),
        length: length(part.quantity.abs()),
      })),
      left: length(lot.left),
    };
  }
}
