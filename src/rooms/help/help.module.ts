import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { Controller, Get, Module, Param } from '@nestjs/common';
import { CHAPTERS } from '../../domain/house/handbook.js';
import { NotFound } from '../../domain/kernel/errors.js';
import { Templates } from '../../printing/templates/templates.js';
import { page, type Reply } from '../../web/reply.js';

const url = (slug: string): string => `/help/${slug}`;
const linkTo = (chapter: (typeof CHAPTERS)[number] | undefined) =>
  chapter ? { text: chapter.title, href: url(chapter.slug) } : '';

/** What stands on a chapter's picture, for those who do not see it. */
const PICTURES: Readonly<Record<string, string>> = {
  'first-evening': 'Rates: what an hour costs, added up line by line.',
  measure: 'A client’s page: how to reach them, and their measurements through time.',
  'plan-and-price': 'A job sheet: the plan by stages, with minutes and the price they come to.',
  cloth: 'The cloth room: what there is, where it lies, and what is left of it.',
  'at-the-bench': 'The bench: the clock, and the garments being made.',
  'deliver-and-get-paid': 'Papers: every quote and invoice, newest first.',
  reckoning: 'Lessons: what each garment type really takes.',
  promises: 'Promises: the garments in leaving order, with the days they will be ready.',
};

/** The handbook: help in one place. */
@Controller('help')
export class HelpController {
  constructor(private readonly templates: Templates) {}

  @Get()
  contents(): Reply {
    return page('handbook/contents', {
      title: 'Handbook',
      room: 'none',
      chapters: CHAPTERS.map(({ slug, title }) => ({ text: title, href: url(slug) })),
    });
  }

  @Get(':chapter')
  chapter(@Param('chapter') slug: string): Reply {
    const place = CHAPTERS.findIndex((chapter) => chapter.slug === slug);
    const chapter = CHAPTERS[place];
    if (!chapter) throw new NotFound('chapter of the handbook');
    return page('handbook/chapter', {
      title: chapter.title,
      room: 'none',
      crumbs: [{ text: 'Handbook', href: '/help' }],
      chapter: `handbook/${slug}`,
      picture: this.pictureOf(slug),
      before: linkTo(CHAPTERS[place - 1]),
      after: linkTo(CHAPTERS[place + 1]),
    });
  }

  private pictureOf(slug: string) {
    const alternative = PICTURES[slug];
    const there = existsSync(join(this.templates.folder, 'assets/handbook', `${slug}.webp`));
    return alternative && there ? { src: `/assets/handbook/${slug}.webp`, alternative } : '';
  }
}

@Module({ controllers: [HelpController] })
export class HelpModule {}
