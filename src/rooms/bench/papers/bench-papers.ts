import { Injectable } from '@nestjs/common';
import { NotFound } from '../../../domain/kernel/errors.js';
import { PdfPrinter } from '../../../printing/browser/pdf-printer.js';
import { type Paper, Stationery } from '../../../printing/papers/stationery.js';
import { fittingBook } from '../../../storage/books/fitting/fitting-book.js';
import { Clock, todayIn } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { file, type Reply } from '../../../web/reply.js';
import { docketOf } from './docket-of.js';
import { fittingNotesOf } from './fitting-notes-of.js';
import { type GarmentPapers, gatherPapers } from './gather.js';
import { makingSheetOf } from './making-sheet-of.js';

/** Prints the papers of the bench. Nothing of them is kept: each is written anew from what is kept of the garment. */
@Injectable()
export class BenchPapers {
  constructor(
    private readonly read: ReadSide,
    private readonly clock: Clock,
    private readonly stationery: Stationery,
    private readonly printer: PdfPrinter,
  ) {}

  async docket(garmentId: string, commissionId?: string): Promise<Reply> {
    const told = await this.told(garmentId, commissionId);
    return this.printed(this.stationery.docket(docketOf(told, this.today(told))), 'docket', told);
  }

  async makingSheet(garmentId: string, commissionId?: string): Promise<Reply> {
    const told = await this.told(garmentId, commissionId);
    return this.printed(
      this.stationery.makingSheet(makingSheetOf(told, this.today(told))),
      'making-sheet',
      told,
    );
  }

  /** Of the next planned fitting of a garment; without one, a blank sheet. */
  async notesOfGarment(garmentId: string, commissionId?: string): Promise<Reply> {
    const told = await this.told(garmentId, commissionId);
    const today = this.today(told);
    const next = told.fittings.find(({ state, on }) => state === 'planned' && on >= today);
    if (next) return this.notes(next.id);
    const { sheet } = told.studio;
    return this.printed(
      this.stationery.fittingNotes(fittingNotesOf([told], undefined, []), sheet),
      'fitting-notes',
      told,
    );
  }

  /** @throws NotFound, also where the fitting is another commission's */
  async notes(fittingId: string, commissionId?: string): Promise<Reply> {
    const fitting = await fittingBook.one(this.read, fittingId);
    if (commissionId !== undefined && fitting.commissionId !== commissionId)
      throw new NotFound('fitting in this commission');
    const tried: GarmentPapers[] = [];
    for (const id of fitting.garmentIds) tried.push(await gatherPapers(this.read, id));
    const [first, ...others] = tried.sort((a, b) => a.garment.place - b.garment.place);
    if (!first) throw new NotFound('garment of this fitting');
    const corrections = await fittingBook.corrections(this.read, fittingId);
    const notes = fittingNotesOf([first, ...others], fitting, corrections);
    return this.printed(this.stationery.fittingNotes(notes, first.studio.sheet), 'fitting-notes', first);
  }

  private async told(garmentId: string, commissionId?: string): Promise<GarmentPapers> {
    const told = await gatherPapers(this.read, garmentId);
    if (commissionId !== undefined && told.garment.commissionId !== commissionId)
      throw new NotFound('garment in this commission');
    return told;
  }

  private today({ studio }: GarmentPapers): string {
    return todayIn(this.clock, studio.identity.zone);
  }

  private async printed({ html, sheet }: Paper, what: string, { head }: GarmentPapers): Promise<Reply> {
    const name = `${what}-${head.commission}-${head.number}.pdf`.replace(/[/\\]/g, '-');
    return file(await this.printer.print(html, sheet), 'application/pdf', name, true);
  }
}
