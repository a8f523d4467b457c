import { foldForSearch } from '../../domain/clients/client.js';
import { chaptersFound } from '../../domain/house/handbook.js';
import { clientBook } from '../books/client-book.js';
import { materialBook } from '../books/cloth-room/material-book.js';
import { commissionBook } from '../books/commission-book.js';
import { counterBook } from '../books/counter/counter-book.js';
import { enquiryBook } from '../books/counter/enquiry-book.js';
import { outworkBook } from '../books/outwork/outwork-book.js';
import { invoiceBook } from '../books/papers/invoice-book.js';
import { quoteBook } from '../books/papers/quote-book.js';
import { GarmentRow } from '../rows/commissions/garment.row.js';
import type { Findable } from './findable.js';

const clients: Findable = {
  name: 'Clients',
  async find(reading, asked, limit) {
    const { items } = await clientBook.find(reading, asked, limit);
    return items.map(({ id, name, code }) => ({ text: name, note: code, about: `client/${id}` }));
  },
};

const commissions: Findable = {
  name: 'Commissions',
  async find(reading, asked, limit) {
    const { items } = await commissionBook.find(reading, asked, limit);
    return items.map(({ id, number, title, clientName }) => ({
      text: title ? `${number} ${title}` : number,
      note: clientName,
      about: `commission/${id}`,
    }));
  },
};

const MOST_LOOKED_THROUGH = 5000;

const garments: Findable = {
  name: 'Garments',
  async find(reading, asked, limit) {
    // A garment's name has no folded column: the newest few thousand are folded here, in one read of two short columns.
    const rows = await reading.manager
      .createQueryBuilder(GarmentRow, 'garment')
      .select(['garment.id', 'garment.commission_id', 'garment.name'])
      .orderBy('garment.id', 'DESC')
      .take(MOST_LOOKED_THROUGH)
      .getMany();
    const words = foldForSearch(asked).split(' ');
    return rows
      .filter(({ name }) => words.every((word) => foldForSearch(name).includes(word)))
      .slice(0, limit)
      .map(({ id, commission_id, name }) => ({
        text: name,
        about: `commission/${commission_id}/garment/${id}`,
      }));
  },
};

const materials: Findable = {
  name: 'Materials',
  async find(reading, asked, limit) {
    const { items } = await materialBook.find(reading, asked, limit);
    return items.map(({ id, name, place }) => ({
      text: name,
      ...(place ? { note: place } : {}),
      about: `material/${id}`,
    }));
  },
};

const papers: Findable = {
  name: 'Papers',
  async find(reading, asked, limit) {
    const quotes = await quoteBook.find(reading, asked, limit);
    const invoices = await invoiceBook.find(reading, asked, limit);
    const newest = [...quotes.items, ...invoices.items].sort((a, b) => (a.id < b.id ? 1 : -1));
    return newest.slice(0, limit).map(({ id, number, clientName }) => ({
      text: number,
      note: clientName,
      about: `paper/${id}`,
    }));
  },
};

const outwork: Findable = {
  name: 'Outwork',
  async find(reading, asked, limit) {
    const { items } = await outworkBook.list(reading, limit, '', asked);
    return items.map(({ id, number, work, garmentName }) => ({
      text: `${number} ${work}`,
      note: garmentName,
      about: `outwork/${id}`,
    }));
  },
};

const enquiries: Findable = {
  name: 'Enquiries',
  async find(reading, asked, limit) {
    const { items } = await enquiryBook.list(reading, limit, '', asked);
    return items.map(({ id, name, what }) => ({ text: name, note: what, about: `enquiry/${id}` }));
  },
};

const counterWork: Findable = {
  name: 'Counter work',
  async find(reading, asked, limit) {
    const { items } = await counterBook.list(reading, limit, '', asked);
    return items.map(({ id, number, what, name }) => ({
      text: `${number} ${what}`,
      note: name,
      about: `counter/${id}`,
    }));
  },
};

const handbook: Findable = {
  name: 'Handbook',
  async find(_, asked, limit) {
    return chaptersFound(asked)
      .slice(0, limit)
      .map(({ slug, title }) => ({ text: title, about: `handbook/${slug}` }));
  },
};

/** Everything that can be found from every page, in the order in which it is shown. A new kind is one more line here. */
export const findables: readonly Findable[] = [
  clients,
  commissions,
  garments,
  materials,
  papers,
  outwork,
  enquiries,
  counterWork,
  handbook,
];
