import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { NotFound } from '../../../domain/kernel/errors.js';
import { type KeptOperation, makingBook } from '../../../storage/books/making-book.js';
import { dimensionBook } from '../../../storage/books/measuring/dimension-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { ReadSide } from '../../../storage/read-side.js';
import type { Visit } from '../../../storage/session.js';
import { UnitOfWork } from '../../../storage/unit-of-work.js';
import { freshForm, submit, versionSeen } from '../../../web/forms/form.js';
import { parseForm } from '../../../web/forms/parse.js';
import { typedOf } from '../../../web/forms/typed.js';
import { page, type Reply, seeOther } from '../../../web/reply.js';
import { Hand } from '../../../web/visit.js';
import { addOperation, addType, changeOperation, changeType, removeOperation } from './change-making.js';
import {
  measuresFormPage,
  newOperation,
  operationFormPage,
  typedPlaces,
  typeFormPage,
  typePage,
  typesPage,
  typeUrl,
} from './making.page.js';
import { readMeasures } from './measures.form.js';
import { readOperation, TypeSaid, typedOperation } from './operation.form.js';

/** What the studio makes: types, their operations, and what is measured for them. */
@Controller('house/making')
export class MakingController {
  constructor(
    private readonly read: ReadSide,
    private readonly unit: UnitOfWork,
  ) {}

  @Get()
  async types(): Promise<Reply> {
    const [types, operations] = [await makingBook.types(this.read), await makingBook.operations(this.read)];
    return page('house/making/types', typesPage(types, operations));
  }

  @Get('new')
  newType(): Reply {
    const { template, words } = typeFormPage(freshForm('/house/making/new'));
    return page(template, words);
  }

  @Post('new')
  add(@Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { value, act } = await addType(this.unit, visit, parseForm(TypeSaid, typed));
        return seeOther(typeUrl(value), act);
      },
      (form) => typeFormPage(form),
    );
  }

  @Get(':type')
  async type(@Param('type') id: string): Promise<Reply> {
    const type = await makingBook.type(this.read, id);
    const operations = await makingBook.operations(this.read, id);
    return page('house/making/type', typePage(type, operations, await dimensionBook.all(this.read)));
  }

  @Get(':type/name')
  async nameForm(@Param('type') id: string): Promise<Reply> {
    const type = await makingBook.type(this.read, id);
    const form = freshForm('', { name: type.name, plural: type.plural }, type.version);
    const { template, words } = typeFormPage(form, type);
    return page(template, words);
  }

  @Post(':type/name')
  rename(@Param('type') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const present = () => makingBook.type(this.read, id);
    return submit(
      typed,
      async () => {
        const said = parseForm(TypeSaid, typed);
        const { act } = await changeType(this.unit, visit, id, said, versionSeen(typed));
        return seeOther(typeUrl(id), act);
      },
      async (form) => typeFormPage(form, await present()),
      async () => present().then(({ name, plural }) => ({ name, plural })),
    );
  }

  @Get(':type/measures')
  async measuresForm(@Param('type') id: string): Promise<Reply> {
    const type = await makingBook.type(this.read, id);
    const form = freshForm('', typedPlaces(type.measuringList), type.version);
    const { template, words } = measuresFormPage(form, type, await dimensionBook.all(this.read));
    return page(template, words);
  }

  @Post(':type/measures')
  setMeasures(@Param('type') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    const present = () => makingBook.type(this.read, id);
    return submit(
      typed,
      async () => {
        const measuringList = readMeasures(typed);
        const { act } = await changeType(this.unit, visit, id, { measuringList }, versionSeen(typed));
        return seeOther(typeUrl(id), act);
      },
      async (form) => measuresFormPage(form, await present(), await dimensionBook.all(this.read)),
      async () => typedPlaces((await present()).measuringList),
    );
  }

  @Get(':type/operations/new')
  async newOperation(@Param('type') id: string): Promise<Reply> {
    const type = await makingBook.type(this.read, id);
    const { template, words } = operationFormPage(freshForm('', newOperation()), type);
    return page(template, words);
  }

  @Post(':type/operations/new')
  addOperation(@Param('type') id: string, @Body() body: unknown, @Hand() visit: Visit): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        const { act } = await addOperation(this.unit, visit, id, readOperation(typed, await this.locale()));
        return seeOther(typeUrl(id), act);
      },
      async (form) => operationFormPage(form, await makingBook.type(this.read, id)),
    );
  }

  @Get(':type/operations/:id')
  async operationForm(@Param('type') typeId: string, @Param('id') id: string): Promise<Reply> {
    const [type, known] = [await makingBook.type(this.read, typeId), await this.operation(typeId, id)];
    const form = freshForm('', typedOperation(known), known.version);
    const { template, words } = operationFormPage(form, type, known);
    return page(template, words);
  }

  @Post(':type/operations/:id')
  changeOperation(
    @Param('type') typeId: string,
    @Param('id') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    const typed = typedOf(body);
    return submit(
      typed,
      async () => {
        await this.operation(typeId, id);
        const said = readOperation(typed, await this.locale());
        const { act } = await changeOperation(this.unit, visit, id, said, versionSeen(typed));
        return seeOther(typeUrl(typeId), act);
      },
      async (form) =>
        operationFormPage(form, await makingBook.type(this.read, typeId), await this.operation(typeId, id)),
      async () => typedOperation(await this.operation(typeId, id)),
    );
  }

  @Post(':type/operations/:id/remove')
  async removeOperation(
    @Param('type') typeId: string,
    @Param('id') id: string,
    @Body() body: unknown,
    @Hand() visit: Visit,
  ): Promise<Reply> {
    await this.operation(typeId, id);
    const { act } = await removeOperation(this.unit, visit, id, versionSeen(typedOf(body)));
    return seeOther(typeUrl(typeId), act);
  }

  private async operation(typeId: string, id: string): Promise<KeptOperation> {
    const known = await makingBook.operation(this.read, id);
    if (known.garmentType !== typeId) throw new NotFound('operation');
    return known;
  }

  private async locale(): Promise<string> {
    return (await studioBook.the(this.read)).identity.locale;
  }
}
