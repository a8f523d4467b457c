import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { freshPostgres, isPostgresLeftOut } from '../../../support/postgres.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { aCommission, furnishHouse, setRates } from '../../quotes/a-commission.js';

// Names that stand nowhere else, so that whatever is found of them was left behind.
const [FIRST, LAST] = ['Isolde', 'Vexmarrow'];
const NAME = `${FIRST} ${LAST}`;
const NAMES = new RegExp(`${FIRST}|${LAST}`, 'i');

const DATABASES = [
  { on: 'SQLite', left: false, place: async () => ({ environment: {}, drop: async () => undefined }) },
  {
    on: 'PostgreSQL',
    left: isPostgresLeftOut,
    place: async () => {
      const { url, drop } = await freshPostgres();
      return { environment: { DATABASE_URL: url }, drop };
    },
  },
];

for (const { on, left, place } of DATABASES)
  describe.skipIf(left)(`a client at every place of the studio, on ${on}`, () => {
    let studio: TestStudio;
    let drop: () => Promise<unknown>;
    let client: string;
    const api = async (method: string, url: string, body?: object) => {
      const answer = await studio.api(method, url, body);
      expect(answer.status, `${method} ${url}: ${answer.text}`).toBeLessThan(300);
      return answer.status === 204 ? undefined : answer.json();
    };
    const columnsSaying = async (words: RegExp): Promise<string[]> => {
      const found = new Set<string>();
      for (const { target, tableName } of studio.read.manager.connection.entityMetadatas)
        for (const row of await studio.read.manager.find(target))
          for (const [column, value] of Object.entries(row)) {
            const text = Buffer.isBuffer(value) ? value.toString('latin1') : JSON.stringify(value);
            if (words.test(text ?? '')) found.add(`${tableName}.${column}`);
          }
      return [...found];
    };

    beforeAll(async () => {
      const made = await place();
      drop = made.drop;
      studio = await openTestStudio(made.environment);
      await furnishHouse(studio);
      await setRates(studio, '30.00');
    }, 60_000);
    afterAll(async () => {
      await studio.close();
      await drop();
    });

    it('stands in many tables before', async () => {
      const commission = await aCommission(studio, [{ name: `Cape of ${FIRST}` }], {
        client: NAME,
        title: `For ${LAST}`,
      });
      client = commission.clientId;
      const [garment = ''] = commission.garments;
      const at = `/api/commissions/${commission.id}`;
      await api('POST', `/api/garments/${garment}/pattern`, {
        name: `${LAST} cape`,
        hook: 'Hook 3',
        notes: `Drafted for ${NAME}`,
      });
      const fitting = await api('POST', `${at}/fittings`, {
        kind: 'baste',
        on: '2026-03-02',
        at: '10:00',
        minutes: 30,
        garmentIds: [garment],
        notes: `${FIRST} brings her shoes.`,
      });
      await api('PUT', `${at}/fittings/${fitting.id}/held`, {
        on: '2026-03-02',
        present: `The brother of ${NAME}`,
        worn: 'Walking shoes',
        corrections: [
          { garmentId: garment, place: `left shoulder of ${FIRST}`, direction: 'raise', amount: '1 cm' },
        ],
      });
      await api('POST', '/api/payments/bank', {
        text: `Date,Amount,Text\n2026-03-02,120.00,From ${NAME} with thanks`,
        headed: true,
        columns: ['date', 'amount', 'words'],
      });
      await api('POST', '/api/clients/enquiries', { name: NAME, what: `A skirt for ${FIRST}` });
      await api('POST', `/api/garments/${garment}/cancel`, {
        on: '2026-03-02',
        words: `${FIRST} moved away`,
      });
      expect((await columnsSaying(NAMES)).length).toBeGreaterThan(8);
    });

    it('stands in none after', async () => {
      const { code } = await api('GET', `/api/clients/${client}`);
      const erased = await studio.api('POST', `/api/clients/${client}/erasure`, { number: code });
      expect(erased.status, erased.text).toBeLessThan(300);
      expect(await columnsSaying(NAMES)).toEqual([]);
      for (const url of [
        `/clients/${client}`,
        '/clients',
        '/commissions',
        '/history',
        '/papers/payments/bank',
      ])
        expect([url, (await studio.get(url)).status]).toEqual([url, 200]);
      const again = await studio.post('/clients', { once: randomUUID(), name: NAME });
      expect(again.status).toBe(303);
    });
  });
