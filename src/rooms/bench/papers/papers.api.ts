import { Controller, Get, Param } from '@nestjs/common';
import { Describe } from '../../../web/api/describe.js';
import type { Reply } from '../../../web/reply.js';
import { BenchPapers } from './bench-papers.js';

/** The papers of the bench for programs. */
@Controller('api')
export class BenchPapersApi {
  constructor(private readonly papers: BenchPapers) {}

  @Get('garments/:garment/docket.pdf')
  @Describe({ summary: 'The docket of a garment, A6: no name, no price' })
  docket(@Param('garment') garment: string): Promise<Reply> {
    return this.papers.docket(garment);
  }

  @Get('garments/:garment/making-sheet.pdf')
  @Describe({ summary: 'The making sheet of a garment, A5: planned times, room for start and stop' })
  makingSheet(@Param('garment') garment: string): Promise<Reply> {
    return this.papers.makingSheet(garment);
  }

  @Get('garments/:garment/fitting-notes.pdf')
  @Describe({ summary: 'Notes for the next planned fitting of a garment, or a blank sheet' })
  notesOfGarment(@Param('garment') garment: string): Promise<Reply> {
    return this.papers.notesOfGarment(garment);
  }

  @Get('commissions/:commission/fittings/:fitting/notes.pdf')
  @Describe({ summary: 'The notes of one fitting' })
  notes(@Param('commission') commission: string, @Param('fitting') fitting: string): Promise<Reply> {
    return this.papers.notes(fitting, commission);
  }
}
