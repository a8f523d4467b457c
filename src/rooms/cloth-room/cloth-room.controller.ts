import { Controller, Get, Query } from '@nestjs/common';
import { lotBook } from '../../storage/books/cloth-room/lot-book.js';
import { materialBook } from '../../storage/books/cloth-room/material-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import { ReadSide } from '../../storage/read-side.js';
import { page, type Reply } from '../../web/reply.js';
import { clothRoomPage } from './cloth-room.page.js';

/** What is on the shelves. */
@Controller('cloth-room')
export class ClothRoomController {
  constructor(private readonly read: ReadSide) {}

  @Get()
  async list(@Query('q') asked = '', @Query('after') after = ''): Promise<Reply> {
    const { identity } = await studioBook.the(this.read);
    const found = await materialBook.find(this.read, asked, 30, after);
    const onHand = await lotBook.onHand(this.read);
    return page('cloth-room/list', clothRoomPage(found, onHand, { asked, after }, identity));
  }
}
