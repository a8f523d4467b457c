import { Body, Controller, Delete, Get, Headers, Param, Post, Put } from '@nestjs/common';
import { Decimal } from '../../domain/kernel/decimal.js';
import { modeLessons, operationLessons } from '../../domain/lessons/by-operation.js';
import { type HandPace, handPaces } from '../../domain/lessons/hand-paces.js';
import type { PastGarment } from '../../domain/lessons/past-garment.js';
import { pastGarmentBook } from '../../storage/books/past-garment-book.js';
import { Clock } from '../../storage/clock.js';
import { lessonBook } from '../../storage/lesson/lesson-book.js';
import { ReadSide } from '../../storage/read-side.js';
import type { Visit } from '../../storage/session.js';
import { UnitOfWork } from '../../storage/unit-of-work.js';
import { Describe } from '../../web/api/describe.js';
import { presentAs } from '../../web/api/present-as.js';
import { parse } from '../../web/forms/parse.js';
import { etagOf, versionOfIfMatch } from '../../web/forms/version.js';
import { answer, type Reply } from '../../web/reply.js';
import { Hand } from '../../web/visit.js';
import { bringGarments, outcomeOf, planImport } from './import/bring-garments.js';
import { ListSent } from './import/import.form.js';
import { type KnownType, lessonsOf } from './lessons-of.js';
import { GuessSent, TotalSent, TotalsSent } from './totals.form.js';
import { operationOut, toldOut } from './type/told-out.js';
import { typeTold } from './type/type-told.js';
import { correctTotal, guessHours, removeTotal, writeDown } from './write-down.js';

/** Lessons for programs. */
@Controller('api/lessons')
export class LessonsApi {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  @Get()
  @Describe({ summary: 'What each garment type takes: a typical one and the next one, in hours' })
  async all(): Promise<Reply> {
    return answer({ items: (await lessonsOf(this.read)).map(lessonOut) });
  }

  @Post('import')
  @Describe({
    summary: 'Brings in past garments: a few by value, or a list as text; `preview: true` keeps nothing',
    examples: {
      'by value': {
        garments: [{ type: 'waistcoat', hours: '52.5', plannedHours: '48', finishedOn: '2026-01-10' }],
      },
      'a list by operation': {
        text: 'No,Type,Operation,Planned min,Took min\n7,Waistcoat,Cut cloth,60,75\n7,Waistcoat,Inside pockets,0,90\n',
        headed: true,
        columns: [
          { to: 'garment' },
          { to: 'type' },
          { to: 'operation' },
          { to: 'planned', unit: 'minutes' },
          { to: 'took', unit: 'minutes' },
        ],
        works: [{ said: 'Inside pockets', means: 'own machine' }],
        preview: true,
      },
      'a list': {
        text: 'Type;Hours\nWaistcoat;52,5\n',
        headed: true,
        columns: [{ to: 'type' }, { to: 'took', unit: 'hours' }],
        preview: true,
      },
    },
  })
  async writeDown(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    if (typeof body === 'object' && body !== null && 'text' in body) return this.bring(body, visit);
    const { garments } = parse(TotalsSent, body);
    const { value } = await writeDown(this.unit, visit, garments, (place) => `garments.${place}.type`);
    return answer({ items: value.map(pastOut) }, 201);
  }

  @Get('operations')
  @Describe({ summary: 'What each kind of operation takes in closed garments, by mode, in minutes' })
  async operations(): Promise<Reply> {
    const closed = await lessonBook.byOperation(this.read);
    return answer({
      items: operationLessons(closed).map(operationOut),
      modes: modeLessons(closed),
      paces: handPaces(closed).map(paceOut),
    });
  }

  @Get('garment-types/:id')
  @Describe({
    summary: 'Everything past garments say about one type',
    description: 'Hours for the whole garment, minutes for operations; shares from 0 to 1.',
  })
  async type(@Param('id') id: string): Promise<Reply> {
    const known = await typeTold(this.read, id);
    return answer(
      { ...lessonOut(known), ...toldOut(known), past: known.past.map(pastOut) },
      200,
      known.guessVersion > 0 ? etagOf(known.guessVersion) : {},
    );
  }

  /** Says or takes back (null) the studio's own guess. */
  @Put('garment-types/:id')
  async guess(
    @Param('id') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const { ownGuess } = parse(GuessSent, body);
    await presentAs(
      () => this.type(id),
      () => guessHours(this.unit, visit, id, ownGuess ?? undefined, versionOfIfMatch(match)),
    );
    return this.type(id);
  }

  @Get('garments/:id')
  async past(@Param('id') id: string): Promise<Reply> {
    const past = await pastGarmentBook.one(this.read, id);
    return answer(pastOut(past), 200, etagOf(past.version));
  }

  @Put('garments/:id')
  async correct(
    @Param('id') id: string,
    @Body() body: unknown,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const words = parse(TotalSent, body);
    const { value } = await presentAs(
      () => this.past(id),
      () => correctTotal(this.unit, visit, id, words, versionOfIfMatch(match)),
    );
    return answer(pastOut(value), 200, etagOf(value.version));
  }

  @Delete('garments/:id')
  async remove(
    @Param('id') id: string,
    @Headers('if-match') match: string | undefined,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await presentAs(
      () => this.past(id),
      () => removeTotal(this.unit, visit, id, versionOfIfMatch(match)),
    );
    return answer({ removed: id });
  }

  private async bring(body: object, visit: Visit): Promise<Reply> {
    const { text, preview, ...words } = parse(ListSent, body);
    if (!preview) return answer((await bringGarments(this.unit, visit, this.clock, text, words)).value, 201);
    const { garments, unknown, unknownWork } = await planImport(this.read, this.clock, text, words);
    return answer({
      items: garments.map((one) => ({
        line: one.line,
        rows: one.rows,
        outcome: outcomeOf(one, words.twins),
        troubles: one.troubles,
        isUnusual: one.isUnusual,
        isTwin: one.isTwin,
        operations: one.operations,
      })),
      unknown,
      unknownWork,
    });
  }
}

const paceOut = ({ kind, name, garments, ofEach, ...rates }: HandPace) => ({
  kind,
  name,
  garments,
  ofEach: ofEach.map(({ pace, isFarOff }) => ({ pace: figure(pace), isFarOff })),
  ...figures(rates),
});

const figure = (hours: number): string => new Decimal(hours).toDecimalPlaces(4).toFixed();
const figures = <K extends string>(values: Readonly<Record<K, number>>): Record<K, string> =>
  Object.fromEntries(Object.entries<number>(values).map(([name, hours]) => [name, figure(hours)])) as Record<
    K,
    string
  >;

const lessonOut = ({ type, lesson }: KnownType) => ({
  garmentType: type.id,
  name: type.name,
  garments: lesson?.garments ?? 0,
  knownByOperation: lesson?.closed ?? 0,
  belief: lesson?.belief ?? null,
  typical: lesson ? figures(lesson.hours.typical) : null,
  next: lesson ? figures(lesson.hours.next) : null,
  overrun: lesson?.overrun ?? null,
});

const pastOut = ({ typeId, ...past }: PastGarment) => ({ ...past, type: typeId });
