import { z } from 'zod';
import { earnedValueOf } from '../../domain/costing/earned-value.js';
import { amountsIn } from '../../web/api/amounts.js';
import { money } from '../../web/api/json-fields.js';
import { currency, question, shareText } from './question.js';

const schema = z.strictObject(
  {
    currency: currency(),
    budgetAtCompletion: money(),
    plannedValue: money()
      .nullable()
      .default(null)
      .meta({ description: 'Null without a dated plan; the schedule figures are then null.' }),
    earnedValue: money(),
    actualCost: money(),
  },
  'Send a JSON object.',
);

export const earnedValue = question({
  schema,
  summary: 'The textbook figures of a job under way',
  examples: {
    'a coat half made': {
      currency: 'EUR',
      budgetAtCompletion: '1200.00',
      plannedValue: '700.00',
      earnedValue: '600.00',
      actualCost: '660.00',
    },
  },
  answer: (asked, own) => {
    const amounts = amountsIn(asked.currency ?? own);
    const input = {
      budgetAtCompletion: amounts.money(asked.budgetAtCompletion, 'budgetAtCompletion'),
      plannedValue: asked.plannedValue && amounts.money(asked.plannedValue, 'plannedValue'),
      earnedValue: amounts.money(asked.earnedValue, 'earnedValue'),
      actualCost: amounts.money(asked.actualCost, 'actualCost'),
    };
    amounts.mustFit();
    const figures = earnedValueOf(input);
    return {
      ...figures,
      costPerformance: shareText(figures.costPerformance),
      schedulePerformance: shareText(figures.schedulePerformance),
    };
  },
});
