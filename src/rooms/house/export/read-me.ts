/** What lies in an export, in words, for whoever opens it without this program. */
export const readMe = (studio: string, madeAt: string): string => `${studio}: everything, as open files
Made ${madeAt} (UTC).

rows/<table>.jsonl   every row, one JSON object a line, UTF-8, in the order of the keys (id). This is what "npm run import" reads.
tables/<table>.csv   the same rows for a spreadsheet (RFC 4180, comma, UTF-8), without pictures and papers as such.
                     An apostrophe stands before text that a spreadsheet would take for a formula.
papers/              invoices, quotes and receipts as PDF, byte for byte as they were issued;
                     invoices also as data: .ubl.xml (OASIS UBL 2.1) and .cii.xml (UN/CEFACT Cross Industry Invoice).
pictures/            photographs and the mark of the house.
schema.json          the columns of every table as JSON Schema (2020-12), and which refers to which.
manifest.json        how many rows each table has, and a SHA-256 over its lines in rows/.

How values are written
Money: whole minor units of the currency of the row or of the studio (12345 is 123.45), columns of type integer.
Decimals, such as quantities, rates and factors: text, with a point.
Dates: YYYY-MM-DD. Instants: UTC, such as 2026-03-02T09:00:00.000Z. Minutes: whole numbers or decimal text.
Yes and no: true and false. Nothing: null. Documents, such as plans and papers: JSON as text.
Pictures and papers in rows: base64.
The columns id are keys; a column that ends in _id holds the key of another row.
act and change are the history: who did what, when, from what and to what.

Not in here: sign-ins, paired phones, keys of programs and of the calendar. They belong to one machine; make them anew.
Passphrases are here only as hashes (argon2id). Keep this file where only you can read it.

To bring it into an empty studio: npm run import -- FILE, with the same release of the program.
`;
