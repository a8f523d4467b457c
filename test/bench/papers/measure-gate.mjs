import { Decimal } from '../../../dist/domain/kernel/decimal.js';
import { checkPaper } from '../../../dist/domain/papers/gate/check-paper.js';
import { makePaper } from '../../../dist/domain/papers/model/make-paper.js';
import { median, quantile, worked } from '../measure.mjs';

const LINES = 20;
const TOGETHER = 50;
const ROUNDS = 60;

const paper = () =>
  makePaper({
    head: {
      kind: 'invoice',
      'BT-1': 'I-2026-001',
      'BT-2': '2026-03-02',
      'BT-5': 'EUR',
      'BT-9': '2026-04-01',
      'BT-72': '2026-03-01',
      'BG-4': {
        'BT-27': 'Quillmere Workroom',
        'BT-31': 'IE1234567FA',
        'BG-5': { 'BT-35': 'Ferry Lane', 'BT-40': 'IE' },
      },
      'BG-7': { 'BT-44': 'Corvin Haddlestone', 'BG-8': { 'BT-50': 'The Hives', 'BT-55': 'IE' } },
      // The example IBAN of the Dutch bank register: no account of anybody's.
      'BG-16': { 'BT-81': '58', 'BT-84': 'NL91ABNA0417164300', 'BT-85': 'Odalys Fenwright' },
    },
    lines: Array.from({ length: LINES }, (_, place) => ({
      name: `Hem ${place + 1} by hand`,
      quantity: new Decimal(place + 1),
      unit: 'piece',
      price: new Decimal('24.35'),
      category: 'S',
      rate: new Decimal(place % 2 === 0 ? 23 : 13.5),
    })),
  });

/** Every rule of the gate on an invoice of twenty lines at two rates. */
export function measureGate() {
  const invoice = paper();
  const found = checkPaper(invoice);
  if (found.some(({ blocks }) => blocks)) throw new Error(`The bench's invoice is refused: ${found[0].text}`);
  const times = Array.from(
    { length: ROUNDS },
    () =>
      worked(() => {
        for (let one = 0; one < TOGETHER; one += 1) checkPaper(invoice);
      }) / TOGETHER,
  ).slice(10);
  return [
    {
      what: `the gate on an invoice of ${LINES} lines`,
      ours: median(times),
      within: 1,
      note: `processor time, median of ${ROUNDS - 10} times ${TOGETHER}; p95 ${quantile(times, 0.95).toFixed(2)} ms; ${found.length} findings`,
    },
  ];
}
