import { newStudio } from '../../domain/house/new-studio.js';
import type { Studio } from '../../domain/house/studio.js';
import type { CalendarDate } from '../../domain/kernel/calendar-date.js';
import { Decimal } from '../../domain/kernel/decimal.js';
import { Money } from '../../domain/kernel/money.js';
import { rateCard } from '../../domain/rates/rate-card.js';
import type { RateWorkings } from '../../domain/rates/rate-workings.js';
import { makingBook } from '../../storage/books/making-book.js';
import { ratesBook } from '../../storage/books/rates-book.js';
import { studioBook } from '../../storage/books/studio-book.js';
import type { Writing } from '../../storage/session.js';
import type { Starter } from '../../storage/starter/read-starter.js';

const eur = (text: string): Money => Money.parse(text, 'EUR');

/** Quillmere Workroom, above a bookbinder's in a river town. Invented. */
const quillmere = (maker: string, zone: string, now: string): Omit<Studio, 'version'> => {
  const plain = newStudio({ name: 'Quillmere Workroom', maker, zone });
  return {
    ...plain,
    identity: {
      ...plain.identity,
      address: 'Over the bindery\n7 Tanner’s Reach\nAmbry',
      country: 'Quillshire',
      email: 'odalys@quillmere.example',
      phone: '555 0177',
      website: 'quillmere.example',
    },
    tax: {
      ...plain.tax,
      registered: true,
      taxNumber: 'QS 4471 902',
      category: 'S',
      rate: new Decimal(21),
      reason: '',
    },
    pricing: {
      ...plain.pricing,
      handlingShare: new Decimal('0.10'),
      minimumCharge: eur('18.00'),
      roundTo: eur('5.00'),
    },
    quotes: {
      ...plain.quotes,
      terms:
        'Work begins when the deposit is in and the cloth has been checked.\nThe balance is due before each garment leaves.',
      clothWording:
        'The price holds for the cloth named; another cloth changes it by the difference in its price.',
      exclusions: 'Alterations to the style after the first fitting\nCleaning and repair after delivery',
    },
    overruns: 'a-little',
    firstRunDone: now,
  };
};

const workings = (maker: string): RateWorkings => ({
  currency: 'EUR',
  people: [
    {
      name: maker,
      pay: eur('22000'),
      onCosts: [],
      year: { weeks: new Decimal(46), hoursAWeek: new Decimal(34), productiveShare: new Decimal('0.62') },
      perHourByMode: {},
    },
  ],
  overhead: [
    { name: 'Rent of the room', amount: eur('3000'), pool: 'workroom', base: 'productive-hours' },
    { name: 'Light and heat', amount: eur('920'), pool: 'workroom', base: 'productive-hours' },
    { name: 'Insurance', amount: eur('480'), pool: 'workroom', base: 'productive-hours' },
    { name: 'Needles, chalk, wax and paper', amount: eur('420'), pool: 'workroom', base: 'productive-hours' },
    { name: 'Books and bank', amount: eur('400'), pool: 'workroom', base: 'productive-hours' },
  ],
  machine: {
    price: eur('1450'),
    residualValue: eur('250'),
    lifeHours: new Decimal(4000),
    upkeepPerHour: new Decimal('2.40'),
    powerPerHour: new Decimal('0.30'),
  },
});

export const loadHouse = async (
  writing: Writing,
  said: { maker: string; zone: string; from: CalendarDate; starter: Starter },
): Promise<void> => {
  await studioBook.open(writing, quillmere(said.maker, said.zone, writing.at));
  await makingBook.bring(writing, said.starter);
  await ratesBook.setFrom(writing, rateCard(said.from, workings(said.maker)));
  writing.says('Opened the demonstration studio', 'house');
};
