import { paperWords } from './words/paper-words.js';

/** The fixed words of receipts, statements of account and reminders. */
export type AccountWords = {
  readonly to: string;
  readonly date: string;
  readonly number: string;
  readonly receipt: {
    readonly title: string;
    readonly opening: (name: string, amount: string) => string;
    readonly how: string;
    readonly received: string;
    readonly towards: string;
    readonly onAccount: string;
    readonly amount: string;
    readonly total: string;
  };
  readonly statement: {
    readonly title: string;
    readonly from: string;
    readonly until: string;
    readonly what: string;
    readonly asked: string;
    readonly paid: string;
    readonly balance: string;
    readonly before: string;
    readonly due: string;
    readonly held: string;
    readonly settled: string;
    readonly kinds: Readonly<
      Record<
        'invoice' | 'credit-note' | 'payment' | 'refund' | 'payment-reversed' | 'refund-reversed',
        string
      >
    >;
  };
  readonly reminder: {
    readonly titles: readonly [string, string];
    readonly openings: readonly [string, string];
    readonly invoice: string;
    readonly dated: string;
    readonly due: string;
    readonly amount: string;
    readonly open: string;
    readonly total: string;
    readonly crossed: string;
    readonly talk: string;
  };
  readonly pay: {
    readonly account: string;
    readonly accountName: string;
    readonly bank: string;
  };
};

/** The fixed words of these letters in a language, out of data/glossary/papers.tsv. */
export const accountWords = (language: string): AccountWords => {
  const words = paperWords(language);
  const say = (key: string): string => words.say(`account.${key}`);
  return {
    to: say('to'),
    date: say('date'),
    number: say('number'),
    receipt: {
      title: say('receipt.title'),
      opening: (name, amount) => words.say('account.receipt.opening', { name, amount }),
      how: say('receipt.how'),
      received: say('receipt.received'),
      towards: say('receipt.towards'),
      onAccount: say('receipt.on-account'),
      amount: say('receipt.amount'),
      total: say('receipt.total'),
    },
    statement: {
      title: say('statement.title'),
      from: say('statement.from'),
      until: say('statement.until'),
      what: say('statement.what'),
      asked: say('statement.asked'),
      paid: say('statement.paid'),
      balance: say('statement.balance'),
      before: say('statement.before'),
      due: say('statement.due'),
      held: say('statement.held'),
      settled: say('statement.settled'),
      kinds: {
        invoice: say('statement.kind.invoice'),
        'credit-note': say('statement.kind.credit-note'),
        payment: say('statement.kind.payment'),
        refund: say('statement.kind.refund'),
        'payment-reversed': say('statement.kind.payment-reversed'),
        'refund-reversed': say('statement.kind.refund-reversed'),
      },
    },
    reminder: {
      titles: [say('reminder.title.first'), say('reminder.title.second')],
      openings: [say('reminder.opening.first'), say('reminder.opening.second')],
      invoice: say('reminder.invoice'),
      dated: say('reminder.dated'),
      due: say('reminder.due'),
      amount: say('reminder.amount'),
      open: say('reminder.open'),
      total: say('reminder.total'),
      crossed: say('reminder.crossed'),
      talk: say('reminder.talk'),
    },
    pay: {
      account: say('pay.account'),
      accountName: say('pay.account-name'),
      bank: say('pay.bank'),
    },
  };
};
