import { Controller, Get } from '@nestjs/common';
import { makingBook } from '../../../storage/books/making-book.js';
import { lessonBook } from '../../../storage/lesson/lesson-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import { Describe } from '../../../web/api/describe.js';
import { answer, page, type Reply } from '../../../web/reply.js';
import { FEWEST, proofPage } from './proof.page.js';

/** How good the prices are, on the studio's own past. */
@Controller()
export class ProofController {
  constructor(private readonly read: ReadSide) {}

  @Get('lessons/proof')
  async proof(): Promise<Reply> {
    const names = new Map((await makingBook.types(this.read)).map(({ id, name }) => [id, name]));
    return page('lessons/proof', proofPage(await lessonBook.proof(this.read), names));
  }

  @Get('api/lessons/backtest')
  @Describe({
    summary: 'How often what was stated came true on the garments the studio closed',
    description:
      'Worked out beside the requests: `isCurrent` is false, and figures of an older state or null are given, until it is done.',
  })
  async backtest(): Promise<Reply> {
    const { proof, isCurrent } = await lessonBook.proof(this.read);
    if (!proof) return answer({ isCurrent, garments: null });
    const { garments, lesson, ownPlan, averageRatio } = proof;
    const scores = garments === 0 ? null : { lesson, ownPlan, averageRatio };
    return answer({ isCurrent, garments, isEnough: garments >= FEWEST, ...scores });
  }
}
