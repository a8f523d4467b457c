import { z } from 'zod';
import { type AgreedExtra, type JobWork, variancesOf } from '../../domain/costing/variances.js';
import type { Decimal } from '../../domain/kernel/decimal.js';
import { type Amounts, amountsIn } from '../../web/api/amounts.js';
import {
  list,
  minutes,
  money,
  name,
  quantity,
  rate,
  signedMoney,
  signedQuantity,
} from '../../web/api/json-fields.js';
import { currency, question } from './question.js';

const MOST = 2000;

/** Whole minutes, or what an extra takes out of the plan. */
const timeOf = (signed: boolean) =>
  signed
    ? signedQuantity().refine((value) => value.isInteger(), 'Give whole minutes such as 90 or -30.')
    : minutes();

/** A line needs a rate or an amount, else its cost would be nought without anybody having said so. */
const priced = <S extends z.ZodType<{ amount?: unknown }>>(line: S, by: string) =>
  line.refine((each) => each.amount !== undefined || (each as Record<string, unknown>)[by] !== undefined, {
    path: [by],
    error: `Give ${by}, or the amount the line came to.`,
  });

const work = (signed: boolean) => {
  const many = signed ? signedQuantity : quantity;
  const sum = signed ? signedMoney : money;
  const amount = sum().optional();
  const time = { minutes: timeOf(signed), perHour: rate().optional(), amount };
  return {
    operations: list(
      priced(z.strictObject({ name: name(), mode: name().optional(), ...time }), 'perHour'),
      MOST,
    ).optional(),
    machine: list(priced(z.strictObject({ name: name(), ...time }), 'perHour'), MOST).optional(),
    materials: list(
      priced(
        z.strictObject({ name: name(), quantity: many(), unitCost: rate().optional(), amount }),
        'unitCost',
      ),
      MOST,
    ).optional(),
    overhead: list(
      priced(z.strictObject({ name: name(), baseQuantity: many(), rate: rate().optional(), amount }), 'rate'),
      MOST,
    ).optional(),
    expenses: list(z.strictObject({ name: name(), amount: sum() }), MOST).optional(),
  };
};

const schema = z.strictObject(
  {
    currency: currency(),
    planned: z.strictObject({ ...work(false), price: money() }, 'Say what was planned.'),
    actual: z.strictObject({ ...work(false), price: money() }, 'Say what was done.').meta({
      description: 'The work of the extras included, and the price with theirs.',
    }),
    extras: list(
      z.strictObject({
        name: name().optional(),
        kind: z.enum(['charged', 'compliments'], 'Say charged or compliments.'),
        price: signedMoney().optional(),
        ...work(true),
      }),
      200,
    ).default([]),
  },
  'Send a JSON object.',
);

type Line = { readonly amount?: Decimal };
type SentWork = Partial<Record<keyof JobWork, readonly Line[]>>;

const SECTIONS = ['operations', 'machine', 'materials', 'overhead', 'expenses'] as const;

/** The same work with its amounts as money. */
const workOf = (sent: SentWork, at: string, amounts: Amounts): JobWork =>
  Object.fromEntries(
    SECTIONS.map((section) => [
      section,
      sent[section]?.map((line, index) => ({
        ...line,
        amount: amounts.maybe(line.amount, `${at}.${section}.${index}.amount`),
      })),
    ]),
  ) as JobWork;

export const variances = question({
  schema,
  summary: 'Why a job earned more or less than was quoted',
  examples: {
    'twelve hours for ten, one of them a charged extra': {
      currency: 'EUR',
      planned: {
        operations: [{ name: 'making', mode: 'hand', minutes: 600, perHour: '20.00' }],
        price: '300.00',
      },
      actual: {
        operations: [{ name: 'making', mode: 'hand', minutes: 720, perHour: '20.00' }],
        price: '350.00',
      },
      extras: [
        {
          kind: 'charged',
          name: 'an inside pocket',
          price: '50.00',
          operations: [{ name: 'making', mode: 'hand', minutes: 60, perHour: '20.00' }],
        },
      ],
    },
  },
  answer: (asked, own) => {
    const of = asked.currency ?? own;
    const amounts = amountsIn(of);
    const pricedWork = (at: 'planned' | 'actual') => ({
      ...workOf(asked[at], at, amounts),
      price: amounts.money(asked[at].price, `${at}.price`),
    });
    const planned = pricedWork('planned');
    const actual = pricedWork('actual');
    const extras = asked.extras.map(
      (extra, index): AgreedExtra => ({
        ...workOf(extra, `extras.${index}`, amounts),
        kind: extra.kind,
        name: extra.name,
        price: amounts.maybe(extra.price, `extras.${index}.price`),
      }),
    );
    amounts.mustFit();
    return variancesOf(of, planned, actual, extras);
  },
});
