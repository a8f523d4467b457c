import { Trouble } from '../../kernel/errors.js';
import type { Money } from '../../kernel/money.js';
import { type Finding, mustMend, wantsLook } from '../finding.js';
import type { Paper, PaperLine } from '../model/paper.js';
import { lineNet } from '../tax/line-net.js';

const blank = (text: string | undefined): boolean => text === undefined || text.trim() === '';

/** What the line's own figures come to, or nothing when they cannot be meant. */
const comesTo = (line: PaperLine): Money | undefined => {
  try {
    return lineNet(
      {
        quantity: line['BT-129'],
        price: line['BT-146'],
        baseQuantity: line['BT-149'],
        category: line['BT-151'],
        allowances: line['BG-27'].map((each) => each['BT-136']),
        charges: line['BG-28'].map((each) => each['BT-141']),
      },
      line['BT-131'].currency,
    );
  } catch (error) {
    if (error instanceof Trouble) return undefined;
    throw error;
  }
};

const oneLine = (line: PaperLine, index: number): Finding[] => {
  const at = `lines.${index}`;
  const name = blank(line['BT-153']) ? `Line ${index + 1}` : line['BT-153'];
  const found: Finding[] = [];
  if (blank(line['BT-126'])) found.push(mustMend('BR-21', at, `${name} has no line number.`));
  if (blank(line['BT-153'])) found.push(mustMend('BR-25', `${at}.name`, `${name} does not say what it is.`));
  if (line['BT-146'].isNegative() && !line['BT-146'].isZero())
    found.push(
      mustMend('BR-27', `${at}.price`, `${name}: a price cannot be negative. Make the quantity negative.`),
    );
  const base = line['BT-149'];
  if (base && (base.isZero() || base.isNegative()))
    found.push(
      mustMend(
        'PEPPOL-EN16931-R121',
        `${at}.baseQuantity`,
        `${name}: the quantity a price is for must be above nought.`,
      ),
    );
  const expected = comesTo(line);
  if (expected && !expected.equals(line['BT-131']))
    found.push(
      mustMend(
        'PEPPOL-EN16931-R120',
        `${at}.price`,
        `${name}: ${line['BT-129'].toFixed()} × ${line['BT-146'].toFixed()} with its allowances and charges is ${expected}, but ${line['BT-131']} is stated.`,
      ),
    );
  if (line['BT-129'].isZero())
    found.push(
      wantsLook(
        `quantity-nought ${index + 1}`,
        `${at}.quantity`,
        `${name} has a quantity of 0. Is that right?`,
      ),
    );
  line['BG-27'].forEach((each) => {
    if (blank(each['BT-139']))
      found.push(
        mustMend(
          'BR-CO-23',
          `${at}.allowances`,
          `${name}: say what the allowance of ${each['BT-136']} is for.`,
        ),
      );
  });
  line['BG-28'].forEach((each) => {
    if (blank(each['BT-144']))
      found.push(
        mustMend('BR-CO-24', `${at}.charges`, `${name}: say what the charge of ${each['BT-141']} is for.`),
      );
  });
  return found;
};

/**
 * Lines, and the allowances and charges on the whole: BR-16, BR-21, BR-25, BR-27, BR-CO-21 to BR-CO-24, and what the
 * official rules miss: quantity × price, to the minor unit.
 */
export const lineRules = (paper: Paper): Finding[] => {
  const found: Finding[] = [];
  if (paper['BG-25'].length === 0) found.push(mustMend('BR-16', 'lines', 'There is no line on this paper.'));
  paper['BG-25'].forEach((line, index) => {
    found.push(...oneLine(line, index));
  });
  paper['BG-20'].forEach((each, index) => {
    if (blank(each['BT-97']))
      found.push(
        mustMend(
          'BR-CO-21',
          `allowances.${index}.reason`,
          `Say what the allowance of ${each['BT-92']} is for.`,
        ),
      );
  });
  paper['BG-21'].forEach((each, index) => {
    if (blank(each['BT-104']))
      found.push(
        mustMend('BR-CO-22', `charges.${index}.reason`, `Say what the charge of ${each['BT-99']} is for.`),
      );
  });
  return found;
};
