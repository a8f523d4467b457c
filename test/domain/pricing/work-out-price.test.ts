import { describe, expect, it } from 'vitest';
import { Money } from '../../../src/domain/kernel/money.js';
import { workOutPrice } from '../../../src/domain/pricing/work-out-price.js';
import { aJacket, d, eur, plainHours } from './a-jacket.js';

describe('a price worked out', () => {
  it('lays the whole sum of a jacket open', () => {
    const { minutes, costSheet, price, keptBack, chanceOfLoss } = workOutPrice(aJacket());
    expect(minutes.total.toFixed()).toBe('375');
    expect(minutes.byMode.get('hand')?.toFixed()).toBe('375');
    expect(`${costSheet.materials} ${costSheet.labour} ${costSheet.machine}`).toBe('239.20 141.82 0.00');
    expect(`${costSheet.overhead} ${costSheet.expenses} ${costSheet.cost}`).toBe('51.36 12.00 444.38');
    expect(`${costSheet.overheadByPool.get('workroom')} ${costSheet.overheadByPool.get('finishing')}`).toBe(
      '33.63 17.73',
    );
    expect(`${price.stashUplift} ${price.handling} ${price.rush}`).toBe('35.20 35.88 0.00');
    expect(`${price.net} ${price.tax} ${price.gross}`).toBe('568.75 119.44 688.19');
    expect(`${price.profit} ${price.earnedPerHour} ${price.lowestThatPaysTheWage}`).toBe(
      '124.37 42.59 444.38',
    );
    expect(price.margin?.toFixed(4)).toBe('0.2187');
    expect(price.markup?.toFixed(4)).toBe('0.2799');
    expect(`${keptBack.minutes} ${keptBack.money}`).toBe('0 0.00');
    expect(chanceOfLoss).toBeNull();
  });

  it('adds its steps up to the net price exactly', () => {
    const { price } = workOutPrice(aJacket());
    expect(
      Money.sum(
        price.steps.map((step) => step.amount),
        'EUR',
      ).toString(),
    ).toBe(price.net.toString());
    expect(price.steps.map((step) => `${step.kind} ${step.amount}`)).toEqual([
      'cost 444.38',
      'stash-uplift 35.20',
      'margin 53.29',
      'handling 35.88',
      'rush 0.00',
      'minimum 0.00',
      'discount 0.00',
      'rounding 0.00',
    ]);
  });

  it('keeps back the cost of the minutes beyond the even chance, before margin', () => {
    const answer = workOutPrice({
      ...aJacket(),
      operations: [{ name: 'lapels', mode: 'hand', minutes: d(60), pricedMinutes: d(90) }],
    });
    expect(answer.minutes.total.toFixed()).toBe('60');
    expect(answer.minutes.priced.toFixed()).toBe('90');
    expect(answer.keptBack.minutes.toFixed()).toBe('30');
    // labour 34.04 − 22.69, workroom 8.07 − 5.38, finishing 4.26 − 2.84
    expect(answer.keptBack.money.toString()).toBe('15.46');
    const { costSheet: sheet } = answer;
    const sections = [sheet.materials, sheet.labour, sheet.machine, sheet.overhead, sheet.expenses];
    expect(
      Money.sum([...sections, sheet.mending.money, sheet.keptBack.money], 'EUR').equals(sheet.cost),
    ).toBe(true);
  });

  it('spreads a kept-back total over the operations by their minutes', () => {
    const { costSheet } = workOutPrice(
      plainHours(0, {
        operations: [
          { name: 'a', mode: 'hand', minutes: d(60) },
          { name: 'b', mode: 'press', minutes: d(30) },
        ],
        keptBackMinutes: d(9),
      }),
    );
    expect(costSheet.keptBack.operations.map((line) => line.minutes.toFixed(6))).toEqual([
      '6.000000',
      '3.000000',
    ]);
    expect(costSheet.keptBack.money.toString()).toBe('3.00');
  });

  it('prices mending on a line of its own', () => {
    const { costSheet, minutes, price } = workOutPrice(plainHours(600, { mendingShare: d('0.05') }));
    expect(`${costSheet.labour} ${costSheet.mending.money} ${costSheet.cost}`).toBe('200.00 10.00 210.00');
    expect(`${costSheet.mending.minutes} ${minutes.priced}`).toBe('30 630');
    expect(price.earnedPerHour?.toString()).toBe('20.00');
  });

  it.each([
    ['labour', '0.15', '280.00'],
    ['price', '0.2', '300.00'],
  ] as const)('adds rush on %s', (rushOn, share, net) => {
    const pricing = { rushShare: d(share), rushOn, margin: d('0.2') };
    expect(workOutPrice(plainHours(600, { pricing })).price.net.toString()).toBe(net);
  });

  it('does not let the residue of a division lift the price by a step', () => {
    // 100 / 0.7 × 1.4 is 200 exactly, though 100 / 0.7 has no end
    const input = plainHours(300, { pricing: { margin: d('0.3'), rushShare: d('0.4'), rushOn: 'price' } });
    expect(workOutPrice(input).price.net.toString()).toBe('200.00');
  });

  it('holds the minimum charge, then takes the discount, then goes up to the step', () => {
    const pricing = { minimumCharge: eur('18'), discount: eur('1.10'), roundTo: eur('0.50') };
    const { price } = workOutPrice(plainHours(24, { pricing }));
    expect(price.minimumApplied).toBe(true);
    expect(price.net.toString()).toBe('17.00');
    expect(price.steps.filter((step) => !step.amount.isZero()).map((s) => `${s.kind} ${s.amount}`)).toEqual([
      'cost 8.00',
      'minimum 10.00',
      'discount -1.10',
      'rounding 0.10',
    ]);
  });

  it('steps the price with tax where prices are kept with tax', () => {
    const input = plainHours(600, {
      tax: { category: 'S', rate: d(21) },
      pricesInclude: 'tax',
      pricing: { roundTo: eur('5') },
    });
    const { price } = workOutPrice(input);
    expect(`${price.gross} ${price.net} ${price.tax}`).toBe('245.00 202.48 42.52');
  });

  it('charges stash at what the maker chose and reports profit on book cost', () => {
    const button = { name: 'button', quantity: d(1), unitCost: d(2), replacementUnitCost: d(5) };
    const net = (chargeAt?: 'replacement' | 'cost' | 'nil') =>
      workOutPrice({
        currency: 'EUR',
        labour: { perHour: d(0) },
        materials: [{ ...button, chargeAt }],
      }).price.net.toString();
    expect([net(), net('replacement'), net('cost'), net('nil')]).toEqual(['5.00', '5.00', '2.00', '0.00']);
  });

  it('costs waste of net and of gross', () => {
    const cloth = { name: 'cloth', quantity: d('2.90'), unitCost: d(10), wasteShare: d('0.10') };
    const cost = (wasteOf: 'net' | 'gross') =>
      workOutPrice({ currency: 'EUR', labour: { perHour: d(0) }, materials: [cloth], wasteOf }).costSheet;
    expect([cost('net').cost.toString(), cost('gross').cost.toString()]).toEqual(['31.90', '32.22']);
  });

  it('asks the estimate for the chance of a loss at the minutes the price bears', () => {
    const asked: string[] = [];
    const answer = workOutPrice(
      plainHours(600, {
        pricing: { markup: d('0.5') },
        chanceOfLoss: (minutes) => {
          asked.push(minutes.toFixed());
          return 0.04;
        },
      }),
    );
    expect(asked).toEqual(['900']);
    expect(answer.chanceOfLoss).toBe(0.04);
    expect(answer.price.breakEvenMinutes?.toFixed()).toBe('900');
  });

  it('rounds to the currency: yen have no decimals, dinars three', () => {
    const inYen = workOutPrice({
      currency: 'JPY',
      labour: { perHour: d('2505') },
      operations: [{ name: 'hem', mode: 'hand', minutes: d(31) }],
      tax: { category: 'S', rate: d(10) },
    });
    expect(`${inYen.price.net} ${inYen.price.tax}`).toBe('1294 129');
    const inDinars = workOutPrice({
      currency: 'KWD',
      labour: { perHour: d('7.125') },
      operations: [{ name: 'hem', mode: 'hand', minutes: d(31) }],
    });
    expect(inDinars.price.net.toString()).toBe('3.681');
  });

  it('answers an empty garment with noughts and no invented ratios', () => {
    const { price } = workOutPrice({ currency: 'EUR', labour: { perHour: d(20) } });
    expect(price.net.toString()).toBe('0.00');
    expect([price.margin, price.markup, price.earnedPerHour, price.breakEvenMinutes]).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });
});
