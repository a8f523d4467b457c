import { z } from 'zod';
import type { SupplierWords } from '../../../storage/books/cloth-room/supplier-book.js';
import { line, optionalLine, optionalLines } from '../../../web/fields/fields.js';

/** What is said about a supplier: the same fields on the page and in the JSON interface. */
export const SupplierFields = z.strictObject({
  name: line('Give the supplier’s name.', 200),
  address: optionalLines(1000),
  email: optionalLine(254).refine(
    (text) => text === '' || /^\S+@\S+$/.test(text),
    'An email address has an @ in it.',
  ),
  phone: optionalLine(60),
  notes: optionalLines(4000),
});

/** A supplier as a form's fields. */
export const typedSupplier = ({ name, address, email, phone, notes }: SupplierWords) => ({
  name,
  address,
  email,
  phone,
  notes,
});
