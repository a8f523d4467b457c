import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import type { Studio } from '../../../src/domain/house/studio.js';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import type { Operation } from '../../../src/domain/making/operation.js';
import { rateCard } from '../../../src/domain/rates/rate-card.js';
import { clientBook } from '../../../src/storage/books/client-book.js';
import { commissionBook } from '../../../src/storage/books/commission-book.js';
import { estimateBook } from '../../../src/storage/books/estimate-book.js';
import { garmentBook } from '../../../src/storage/books/garment-book.js';
import { planBook } from '../../../src/storage/books/plan-book.js';
import { ratesBook } from '../../../src/storage/books/rates-book.js';
import { studioBook } from '../../../src/storage/books/studio-book.js';
import type { TestStudio } from '../../support/studio.js';

type Changes = {
  readonly [K in 'identity' | 'tax' | 'pricing' | 'quotes']?: Partial<Studio[K]>;
};

/** The house as the demonstration has it, registered for tax at 23 %. */
export const furnishHouse = async (studio: TestStudio, changes: Changes = {}): Promise<void> => {
  await studio.unit.write(studio.visit, async (writing) => {
    const house = await studioBook.the(writing);
    const currency = changes.identity?.currency ?? 'EUR';
    await studioBook.correct(writing, {
      ...house,
      identity: {
        ...house.identity,
        address: 'Above the bookbinder’s\n3 Ferry Stairs\nQuillmere QM4 7LT',
        email: 'odalys@quillmere.example',
        phone: '01632 960 417',
        ...changes.identity,
      },
      tax: {
        ...house.tax,
        registered: true,
        taxNumber: 'IE1234567FA',
        category: 'S',
        rate: new Decimal(23),
        ...changes.tax,
      },
      pricing: { ...house.pricing, roundTo: Money.ofMinor(1, currency), ...changes.pricing },
      quotes: {
        ...house.quotes,
        terms: 'The deposit is due on acceptance; cutting begins when it has arrived.',
        exclusions: 'Fittings away from the workroom',
        ...changes.quotes,
      },
    });
    writing.says('Furnished the house', 'house');
  });
};

/** What an hour costs from a day on. */
export const setRates = async (
  studio: TestStudio,
  perHour: string,
  currency = 'EUR',
  from = '2026-01-01',
): Promise<void> => {
  const person = {
    name: 'Odalys Fenwright',
    pay: Money.zero(currency),
    onCosts: [],
    plainPerHour: Money.parse(perHour, currency),
    perHourByMode: {},
  };
  await studio.unit.write(studio.visit, async (writing) => {
    await ratesBook.setFrom(writing, rateCard(from, { currency, people: [person], overhead: [] }));
    writing.says('Set the rates', 'rates');
  });
};

export const anOperation = (name: string, minutes: number, shown = ''): Operation => ({
  id: randomUUID(),
  kind: name,
  name,
  stage: 'make',
  mode: 'hand',
  modeShares: [],
  basting: false,
  driver: 'once',
  quantity: new Decimal(1),
  fixedMinutes: new Decimal(minutes),
  minutesPerUnit: new Decimal(0),
  needsMinutes: false,
  fromStartingValues: false,
  shownToClient: shown !== '',
  clientWording: shown,
});

export type ToMake = {
  readonly name: string;
  readonly minutes?: number;
  readonly cloth?: string;
  readonly shown?: string;
  readonly ownPrice?: string;
  readonly dueOn?: string;
};

const THREE_PIECE: ToMake[] = [
  {
    name: 'Jacket',
    minutes: 2400,
    cloth: '250.00',
    shown: 'Bellows pockets, two, with hand-worked tacks',
    dueOn: '2026-10-09',
  },
  { name: 'Waistcoat', minutes: 700, cloth: '60.00', shown: 'Six buttons, four welt pockets' },
  { name: 'Breeches', minutes: 900, cloth: '85.50', shown: 'Fall front, buttoned knee bands' },
];

/** A commission with its garments planned; answers its id and theirs. */
export const aCommission = async (
  studio: TestStudio,
  garments: readonly ToMake[] = THREE_PIECE,
  said: { client?: string; discount?: string; currency?: string; title?: string } = {},
): Promise<{ id: string; url: string; clientId: string; garments: string[] }> => {
  const currency = said.currency ?? 'EUR';
  studio.clock.forward(1);
  const { value } = await studio.unit.write(studio.visit, async (writing) => {
    const client = await clientBook.add(writing, {
      name: said.client ?? 'Corvin Haddlestone',
      address: 'The Apiary\nLong Reach Lane',
      country: '',
      email: '',
      phone: '',
      taxNumber: '',
      notes: '',
      isChild: false,
      birthDate: undefined,
      guardian: '',
    });
    const { pricing } = await studioBook.the(writing);
    const commission = await commissionBook.open(writing, {
      clientId: client.id,
      payerId: client.id,
      title: said.title ?? 'Three-piece in hand-woven country tweed',
      orderNumber: '',
      openedOn: '2026-03-02',
      wantedBy: undefined,
      notes: '',
      pricing,
      discount: Money.parse(said.discount ?? '0', currency),
    });
    const ids: string[] = [];
    for (const each of garments) {
      const garment = await garmentBook.add(writing, {
        commissionId: commission.id,
        name: each.name,
        typeId: 'lounge-jacket',
        make: 'hand-where-it-shows',
        wearerId: client.id,
        dueOn: each.dueOn,
        notes: '',
        ownPrice: each.ownPrice === undefined ? undefined : Money.parse(each.ownPrice, currency),
      });
      const shown = each.shown ?? 'As described';
      await planBook.keep(writing, garment.id, [
        anOperation(`pad stitch ${each.name}`, each.minutes ?? 600, shown),
        anOperation('seams nobody is told of', 60),
      ]);
      if (each.cloth)
        await estimateBook.addMaterial(writing, garment.id, {
          name: 'hand-woven tweed',
          quantity: new Decimal(1),
          unit: 'm',
          unitCost: new Decimal(each.cloth),
          wasteShare: new Decimal(0),
          wasteOf: 'net',
          handling: false,
          replacementUnitCost: undefined,
          chargeAt: 'cost',
          shownToClient: true,
          clientWording: 'Cloth: hand-woven country tweed',
        });
      ids.push(garment.id);
    }
    writing.says('Opened a commission', `commission/${commission.id}`);
    return { id: commission.id, clientId: client.id, garments: ids };
  });
  return { ...value, url: `/commissions/${value.id}` };
};

/** Begins a quote as the pages do; answers the draft's address. */
export const beginQuote = async (studio: TestStudio, commission: string): Promise<string> => {
  studio.clock.forward(1);
  const answer = await studio.post(`${commission}/quotes`, { once: randomUUID() });
  expect(answer.status, answer.text.slice(0, 500)).toBe(303);
  return String(answer.headers.location).split('?')[0]!;
};

/** Issues a draft, saying yes to whatever wants a look; answers the paper's address. */
export const issueQuote = async (studio: TestStudio, draft: string): Promise<string> => {
  const { text } = await studio.get(`${draft}/check`);
  const ticks = Object.fromEntries(
    [...text.matchAll(/name="(confirm\.[^"]+)"/g)].map(([, name]) => [name!, 'yes']),
  );
  const version = /name="version" value="(\d+)"/.exec(text)?.[1] ?? '';
  const answer = await studio.post(`${draft}/issue`, { once: randomUUID(), version, ...ticks });
  expect(
    answer.status,
    answer.text
      .replace(/<[^>]*>/g, ' ')
      .replace(/\s+/g, ' ')
      .slice(0, 1500),
  ).toBe(303);
  return String(answer.headers.location).split('?')[0]!;
};

/** The bytes of a file the studio answers with. */
export const bytesOf = async (studio: TestStudio, url: string): Promise<Buffer> => {
  const answer = await studio.app.inject({ method: 'GET', url, headers: { cookie: studio.cookie } });
  expect(answer.statusCode, answer.payload.slice(0, 300)).toBe(200);
  expect(answer.headers['content-type']).toBe('application/pdf');
  return answer.rawPayload;
};
