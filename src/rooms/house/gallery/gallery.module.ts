import { Controller, Get, Module } from '@nestjs/common';
import { galleryOf } from '../../../printing/templates/gallery.js';
import { Templates } from '../../../printing/templates/templates.js';
import { page, type Reply } from '../../../web/reply.js';

/** Every component of the look from its examples, for whoever builds pages. */
@Controller('house/gallery')
export class GalleryController {
  constructor(private readonly templates: Templates) {}

  @Get()
  gallery(): Reply {
    return page('house/gallery', {
      title: 'Components',
      room: 'house',
      crumbs: [{ text: 'House', href: '/house' }],
      exhibits: galleryOf(this.templates.folder),
    });
  }
}

@Module({ controllers: [GalleryController] })
export class GalleryModule {}
