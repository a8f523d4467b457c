import { Body, Controller, Post } from '@nestjs/common';
import { z } from 'zod';
import { Invalid } from '../../../domain/kernel/errors.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { yesNo } from '../../../web/fields/fields.js';
import { parse } from '../../../web/forms/parse.js';
import { answer, type Reply } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { bringClients, outcomeOf, planImport } from './bring-clients.js';
import { CLIENT_LIST, ImportFields } from './import.form.js';

const SentList = ImportFields.extend({
  text: z.string('Send the list as text: CSV or vCard.').min(1, 'Send the list as text: CSV or vCard.'),
  /** Tells what would become of each row, and keeps nothing. */
  preview: yesNo(),
});

/** Bringing in clients for programs: `preview: true` first, then the same without it. */
@Controller('api/clients/import')
export class ImportApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Post()
  async bring(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const { text, preview, ...words } = parse(SentList, body);
    if (Buffer.byteLength(text) > CLIENT_LIST.bytes)
      throw Invalid.field('text', 'A list of at most 2 MB is brought in at once.');
    if (!preview) return answer((await bringClients(this.unit, visit, this.clock, text, words)).value);
    const rows = await planImport(this.read, this.clock, text, words);
    return answer({
      items: rows.map((row) => ({
        line: row.line,
        name: row.shownName,
        outcome: outcomeOf(row, words.twins),
        troubles: row.troubles,
        unusual: row.unusual,
        twin: row.twin?.text ?? null,
      })),
    });
  }
}
