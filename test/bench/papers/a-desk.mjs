// A house with drafts of one-page invoices laid ready, on SQLite or PostgreSQL.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readConfig } from '../../../dist/app/config.js';
import { createApp } from '../../../dist/app/create-app.js';
import { loadHouse } from '../../../dist/app/demo/load-house.js';
import { Door } from '../../../dist/app/sign-in/door.js';
import { Decimal } from '../../../dist/domain/kernel/decimal.js';
import { Money } from '../../../dist/domain/kernel/money.js';
import { PdfPrinter } from '../../../dist/printing/browser/pdf-printer.js';
import { Batches } from '../../../dist/rooms/papers/invoices/batch/batches.js';
import { IssuingInvoices } from '../../../dist/rooms/papers/invoices/issuing/issuing-invoices.js';
import { clientBook } from '../../../dist/storage/books/client-book.js';
import { invoiceDraftBook } from '../../../dist/storage/books/papers/invoice-draft-book.js';
import { studioBook } from '../../../dist/storage/books/studio-book.js';
import { ReadSide } from '../../../dist/storage/read-side.js';
import { readStarter } from '../../../dist/storage/starter/read-starter.js';
import { UnitOfWork } from '../../../dist/storage/unit-of-work.js';

const OWNER = { name: 'Odalys Fenwright', passphrase: 'thimble wax needle chalk' };

/** One server; several may stand on one database. */
export const openDesk = async (environment = {}) => {
  const folder = mkdtempSync(join(tmpdir(), 'bastings-bench-'));
  const config = readConfig({
    DATA_DIR: folder,
    PORT: '0',
    TIME_ZONE: 'Europe/Dublin',
    ...environment,
  });
  const app = await createApp(config);
  await app.init();
  return {
    app,
    unit: app.get(UnitOfWork),
    read: app.get(ReadSide),
    batches: app.get(Batches),
    issuing: app.get(IssuingInvoices),
    printer: app.get(PdfPrinter),
    close: async () => {
      await app.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
};

/** The house and one client; answers who acts and the client's id. */
export const furnish = async ({ app, unit }) => {
  const id = await app.get(Door).addOwner(OWNER.name, OWNER.passphrase);
  const visit = { who: { id, name: OWNER.name } };
  const starter = await readStarter(new URL('../../../data/starter', import.meta.url).pathname);
  const { value: clientId } = await unit.write(visit, async (writing) => {
    await loadHouse(writing, { maker: OWNER.name, zone: 'Europe/Dublin', from: '2024-01-01', starter });
    const house = await studioBook.the(writing);
    await studioBook.correct(writing, {
      ...house,
      identity: { ...house.identity, country: 'IE' },
      tax: { ...house.tax, taxNumber: 'IE1234567FA', rate: new Decimal(23) },
    });
    const client = await clientBook.add(writing, {
      name: 'Corvin Haddlestone',
      address: 'The Apiary\nLong Reach Lane',
      country: 'IE',
      email: 'corvin@haddlestone.example',
      phone: '555 0101',
      taxNumber: '',
      notes: '',
      isChild: false,
      birthDate: undefined,
      guardian: '',
    });
    writing.says('Furnished the house for the bench', 'house');
    return client.id;
  });
  return { visit, clientId };
};

const nothing = Money.zero('EUR');
const choices = {
  kind: 'invoice',
  currency: 'EUR',
  pricesInclude: 'none',
  lines: [
    {
      ref: '',
      garment: '',
      name: 'Hem by hand',
      description: 'Grey flannel trousers',
      quantity: new Decimal(1),
      unit: 'piece',
      price: new Decimal('24.00'),
      category: 'S',
      rate: new Decimal(23),
    },
  ],
  discount: nothing,
  discountReason: '',
  taxReasons: {},
  deducts: 'nothing',
  prepaid: nothing,
  due: undefined,
  supplied: undefined,
  orderNumber: '',
  terms: '',
  note: '',
  credits: 'whole',
  creditLines: [],
  creditAmount: undefined,
};

/** Lays so many drafts ready; answers them as a batch takes them. */
export const layReady = async ({ unit, issuing }, { visit, clientId }, many) => {
  const { value: drafts } = await unit.write(visit, async (writing) => {
    const laid = [];
    for (let n = 0; n < many; n += 1) {
      const draft = { commissionId: undefined, clientId, credits: undefined, quotes: [], choices };
      laid.push(await invoiceDraftBook.begin(writing, draft));
    }
    writing.says('Laid invoices ready for the bench', 'house');
    return laid;
  });
  const { hand } = await issuing.inHand(drafts[0].id);
  const blocking = hand.findings.filter(({ blocks }) => blocks);
  if (blocking.length > 0) throw new Error(`The bench's invoice cannot go out: ${blocking[0].text}`);
  return {
    confirmed: hand.findings.map(({ code }) => code),
    drafts: drafts.map(({ id, version }) => ({
      id,
      version,
      kind: 'invoice',
      commissionId: '',
      name: 'Draft: invoice',
    })),
  };
};
