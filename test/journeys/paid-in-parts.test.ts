import { describe, expect, it } from 'vitest';
import { readPdf } from '../printing/papers/read-pdf.js';
import { bytesOf } from '../rooms/quotes/a-commission.js';
import { CREDITED, euro, Journey } from './a-journey-in-parts.js';

/* A three-piece from the accepted quote to the last payment; what the PDFs and the data say is added up against the whole. */

/** With plain spaces where French asks for narrow ones. */
const plain = (text: string): string => text.replace(/\s/g, ' ');
const lineNamed = (terms: any, name: string): any =>
  terms['BG-25'].find((line: any) => line['BT-153'].includes(name));

/** Jacket, waistcoat and the rest, paid in parts, with one line given back; answers the credit note's net. */
const fromDepositToEnd = async (journey: Journey, pocket: string) => {
  const { garments } = journey.at;
  const deposit = await journey.invoice({ what: 'deposit' });
  expect(deposit.terms['BT-3']).toBe('386');
  await journey.pay(deposit.terms['BG-22']['BT-115']);
  expect((await journey.account()).balance).toBe('0.00');
  await journey.extra(0, pocket, 'charged', '55.00');
  await journey.extra(1, 'Lining in silk', 'compliments', '0.00');
  const jacket = await journey.invoice({ what: 'part', garments: [garments[0]] });
  expect(lineNamed(jacket.terms, pocket)['BT-131']).toBe('55.00');
  expect(jacket.terms['BG-3'].map((each: any) => each['BT-25'])).toEqual([deposit.number]);
  await journey.pay('500.00');
  const owed = euro(jacket.terms['BG-22']['BT-115']).minus(euro('500.00'));
  expect(euro((await journey.account()).balance)).toEqual(owed);
  const waistcoat = await journey.invoice({ what: 'part', garments: [garments[1]] });
  expect(lineNamed(waistcoat.terms, 'Lining in silk')['BT-131']).toBe('0.00');
  const given = lineNamed(jacket.terms, pocket);
  const credit = await journey.credit(jacket.id, given['BT-126'], 'The pocket was left out.');
  expect(credit.terms['BT-3']).toBe('381');
  const final = await journey.invoice({ what: 'final' });
  return { deposit, jacket, waistcoat, credit, final };
};

/** The last payment, and the account closed. */
const paysTheRest = async (journey: Journey) => {
  await journey.pay((await journey.account()).balance);
  const { balance, owed, credit, papers } = await journey.account();
  expect([balance, owed, credit]).toEqual(['0.00', '0.00', '0.00']);
  expect(papers.filter((one: any) => one.kind !== CREDITED && one.open !== '0.00')).toEqual([]);
};

describe('a three-piece, paid in parts', () => {
  it('states net, tax and total once, to the cent, on five papers and their data', {
    timeout: 120_000,
  }, async () => {
    const journey = await Journey.begin({});
    try {
      const { credit, final } = await fromDepositToEnd(journey, 'Secret pocket');
      const quoted = await journey.quoted();
      // The whole: what was quoted and the pocket, less the pocket that was given back; it comes off again in the end or not.
      const back = euro(credit.terms['BG-22']['BT-109']);
      expect(back).toEqual(euro('55.00'));
      const net = journey.all('BT-109');
      expect([net.toString(), journey.papers.length]).toEqual([
        euro(quoted['BT-109']).plus(euro('55.00')).toString(),
        5,
      ]);
      expect(journey.all('BT-112')).toEqual(net.plus(journey.all('BT-110')));
      // Tax on the whole at once, 23 %; one cent may go another way per earlier paper, and the last paper says so.
      const tax = net.timesRounded(euro('0.23').toDecimal());
      const drift = journey.all('BT-110').minus(tax);
      expect(Math.abs(drift.minor)).toBeLessThanOrEqual(4);
      expect(final.pdf.includes('Tax was rounded once on each paper')).toBe(!drift.isZero());
      await paysTheRest(journey);
    } finally {
      await journey.studio.close();
    }
  });

  it('of a house not registered for tax, in French, states no tax and says why', {
    timeout: 120_000,
  }, async () => {
    const journey = await Journey.begin({ tax: { registered: false }, language: 'fr' });
    try {
      await fromDepositToEnd(journey, 'Poche secrète');
      for (const { pdf, terms, kind } of journey.papers) {
        expect(terms['BG-22']['BT-110']).toBe('0.00');
        expect(terms['BG-23'].map((group: any) => [group['BT-118'], plain(group['BT-120'])])).toEqual([
          ['E', 'Non assujetti à la TVA ; aucune taxe n’est facturée.'],
        ]);
        expect(pdf).toMatch(
          /TVA : exonéré de taxe \(E\) sur [\d ]+,\d\d Non assujetti à la TVA ; aucune taxe n’est facturée\. Total \d/,
        );
        expect(pdf).not.toMatch(/TVA \d|\d %|Total taxe comprise|Total hors taxe|Not registered/);
        expect(pdf).toContain(kind === CREDITED ? 'Remboursé, EUR' : 'À payer, EUR');
      }
      expect(
        journey.papers.map(
          ({ pdf }) => /Facture d’acompte|Facture partielle|Avoir|Facture de solde/.exec(pdf)?.[0],
        ),
      ).toEqual(['Facture d’acompte', 'Facture partielle', 'Facture partielle', 'Avoir', 'Facture de solde']);
      expect(journey.all('BT-112')).toEqual(euro((await journey.quoted())['BT-109']).plus(euro('55.00')));
      await paysTheRest(journey);
    } finally {
      await journey.studio.close();
    }
  });

  it('with the deposit as a payment on account: a receipt, and taken off the last invoice', {
    timeout: 120_000,
  }, async () => {
    const journey = await Journey.begin({ papers: { treatment: 'payment-on-account' } });
    try {
      const { studio } = journey;
      const payment = await journey.pay('700.00');
      const written = await studio.api('POST', `/api/payments/${payment}/receipt`, {});
      expect(written.status, written.text).toBe(201);
      const receipt = await readPdf(await bytesOf(studio, `/papers/payments/${payment}/receipt.pdf`));
      expect(receipt.pages.join(' ').replace(/\s+/g, ' ')).toMatch(
        /R-2026-001.*On account, held until it is invoiced €700\.00/,
      );
      await journey.extra(0, 'Secret pocket', 'charged', '55.00');
      const jacket = await journey.invoice({ what: 'part', garments: [journey.at.garments[0]] });
      await journey.pay('300.00', { parts: [{ paperId: jacket.id, amount: '300.00' }] });
      const final = await journey.invoice({ what: 'final' });
      expect(final.terms['BG-22']['BT-113']).toBe('700.00');
      expect(final.pdf).toContain('Paid before −700.00');
      const { papers, balance } = await journey.account();
      expect(papers.find(({ id }: any) => id === final.id)).toMatchObject({
        paid: '700.00',
        open: final.terms['BG-22']['BT-115'],
      });
      expect(euro(balance)).toEqual(journey.all('BT-112').minus(euro('1000.00')));
      expect(journey.all('BT-109')).toEqual(euro((await journey.quoted())['BT-109']).plus(euro('55.00')));
      await paysTheRest(journey);
    } finally {
      await journey.studio.close();
    }
  });
});
