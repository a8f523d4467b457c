import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { addDays, type CalendarDate } from '../../domain/kernel/calendar-date.js';
import type { StoryClock } from './story-clock.js';

/** One thing somebody did: a request of the JSON interface, on a day of the story. */
export type StoryStep = {
  /** Days from the day it is loaded: nought or below. */
  readonly day: number;
  /** `09:15`, in the studio's zone; the step before when left out. */
  readonly at?: string;
  /** `POST /api/garments/{jacket}/bench-entries`. */
  readonly do: string;
  readonly with?: unknown;
  /** Names for parts of the answer: `{ "jacket": "items.0.id" }`. */
  readonly keep?: Readonly<Record<string, string>>;
  /** Names for every line of a list in the answer: `{jacket: Pockets}` after a plan was asked for as `jacket`. */
  readonly keepEach?: string;
};

/** A story in one file of `data/demo/story`; all files are told together, day by day. */
type Story = readonly StoryStep[];

/** What the steps may name in braces: ids by the names they were kept under. */
export type Names = Map<string, string>;

const NO_BROWSER = 'no-browser';

/** Tells the story of the demonstration through the JSON interface, as a program would; what was done carries its own day. */
export const loadStory = async (
  app: NestFastifyApplication,
  story: {
    clock: StoryClock;
    token: string;
    today: CalendarDate;
    zone: string;
    names: Names;
    folder: string;
  },
): Promise<string | undefined> => {
  const { clock, token, today, zone, names } = story;
  try {
    for (const step of await stepsIn(story.folder)) {
      clock.standAt(addDays(today, Math.min(0, step.day)), step.at, zone);
      const [method = '', path = ''] = filled(step.do, names, today).split(' ');
      const answer = await app.inject({
        method: method as 'POST',
        url: path,
        headers: { authorization: `Bearer ${token}` },
        ...(step.with === undefined ? {} : { payload: filledIn(step.with, names, today) as object }),
      });
      if (answer.statusCode >= 400) {
        if (answer.payload.includes(NO_BROWSER)) return 'there is no browser to print its papers with.';
        throw new Error(`The story breaks at “${step.do}” of ${step.file}: ${answer.payload.slice(0, 600)}`);
      }
      for (const [name, place] of Object.entries(step.keep ?? {}))
        names.set(name, String(at(JSON.parse(answer.payload), place)));
      if (step.keepEach !== undefined) keepEach(names, step.keepEach, JSON.parse(answer.payload));
    }
    return undefined;
  } finally {
    clock.returnToday();
  }
};

/** Every step of every file, in the order of its day and hour; those of one moment as they stand. */
const stepsIn = async (folder: string): Promise<(StoryStep & { file: string; at: string })[]> => {
  const files = (await readdir(folder)).filter((name) => name.endsWith('.json')).sort();
  const told = await Promise.all(
    files.map(async (file) => {
      let hour = '09:00';
      return (JSON.parse(await readFile(join(folder, file), 'utf8')) as Story).map((step) => {
        hour = step.at ?? hour;
        return { ...step, file, at: hour };
      });
    }),
  );
  return told.flat().sort((a, b) => a.day - b.day || a.at.localeCompare(b.at));
};

/** Every item's id under the list's name and its own: `jacket: Pockets`. */
const keepEach = (names: Names, list: string, answer: { readonly items: readonly Named[] }): void => {
  for (const { id, name } of answer.items) names.set(`${list}: ${name}`, id);
};
type Named = { readonly id: string; readonly name: string };

/** `{jacket}` is what was kept under that name; `{day -3}` the date three days before today. */
const filled = (text: string, names: Names, today: CalendarDate): string =>
  text.replaceAll(/\{(day )?([^{}]+)\}/g, (whole, day: string | undefined, name: string) => {
    if (day) return addDays(today, Number(name));
    const known = names.get(name);
    if (known === undefined) throw new Error(`The story names what nobody has kept: ${whole}.`);
    return known;
  });

const filledIn = (value: unknown, names: Names, today: CalendarDate): unknown => {
  if (typeof value === 'string') return filled(value, names, today);
  if (Array.isArray(value)) return value.map((one) => filledIn(one, names, today));
  if (typeof value === 'object' && value !== null)
    return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, filledIn(one, names, today)]));
  return value;
};

const at = (value: unknown, place: string): unknown =>
  place.split('.').reduce<unknown>((so, key) => (so as Record<string, unknown> | undefined)?.[key], value);
