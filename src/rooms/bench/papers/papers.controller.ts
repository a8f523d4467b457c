import { Controller, Get, Param } from '@nestjs/common';
import type { Reply } from '../../../web/reply.js';
import { BenchPapers } from './bench-papers.js';

/** The papers of the bench: docket, making sheet, fitting notes. */
@Controller('commissions/:commission')
export class BenchPapersController {
  constructor(private readonly papers: BenchPapers) {}

  @Get('garments/:garment/docket.pdf')
  docket(@Param('commission') commission: string, @Param('garment') garment: string): Promise<Reply> {
    return this.papers.docket(garment, commission);
  }

  @Get('garments/:garment/making-sheet.pdf')
  makingSheet(@Param('commission') commission: string, @Param('garment') garment: string): Promise<Reply> {
    return this.papers.makingSheet(garment, commission);
  }

  @Get('garments/:garment/fitting-notes.pdf')
  notesOfGarment(@Param('commission') commission: string, @Param('garment') garment: string): Promise<Reply> {
    return this.papers.notesOfGarment(garment, commission);
  }

  @Get('fittings/:fitting/notes.pdf')
  notes(@Param('commission') commission: string, @Param('fitting') fitting: string): Promise<Reply> {
    return this.papers.notes(fitting, commission);
  }
}
