import { createHash } from 'node:crypto';
import MailComposer from 'nodemailer/lib/mail-composer';
import type { Instant } from '../../domain/kernel/calendar-date.js';
import { Invalid } from '../../domain/kernel/errors.js';
import { onOneLine, permittedCharacters } from './characters.js';

/** A person or a house, and where its mail goes. */
export type Correspondent = { readonly name?: string; readonly address: string };

export type MessageAttachment = {
  readonly name: string;
  /** Its media type, such as `application/pdf`. */
  readonly type: string;
  readonly bytes: Uint8Array;
};

export type Message = {
  readonly from: Correspondent;
  /** Nobody yet is allowed: the maker fills it in. */
  readonly to: readonly Correspondent[];
  readonly subject: string;
  /** Plain text. */
  readonly text: string;
  readonly attachments?: readonly MessageAttachment[];
  readonly date: Instant;
  /** Unlike every other in the world, such as `paper-7.20260504@quillmere.example`. */
  readonly id: string;
};

const ATOM = String.raw`[A-Za-z0-9!#$%&'*+/=?^_\x60{|}~-]+`;
const LABEL = String.raw`[\p{L}\p{N}](?:[\p{L}\p{N}\p{M}-]*[\p{L}\p{N}\p{M}])?`;
const ADDRESS = new RegExp(`^${ATOM}(?:\\.${ATOM})*@${LABEL}(?:\\.${LABEL})*$`, 'u');

const addressOf = ({ name, address }: Correspondent, field: string): { name: string; address: string } => {
  if (address.length > 254 || !ADDRESS.test(address))
    throw Invalid.field(field, `“${address.slice(0, 60)}” is not an address mail can go to.`);
  return { name: onOneLine(name ?? ''), address };
};

/** A file name without folders, and without the signs that systems refuse. */
const fileName = (name: string): string =>
  onOneLine(name)
    .replace(/[/\\:*?"<>|]/g, '-')
    .replace(/^\.+/, '')
    .slice(0, 120) || 'attachment';

const ownBoundary = (message: Message): string => {
  const hash = createHash('sha256').update(JSON.stringify([message.id, message.subject, message.text]));
  for (const each of message.attachments ?? []) hash.update(each.bytes);
  return hash.digest('hex').slice(0, 32);
};

/**
 * A message as a file that a mail program opens, ready to be looked at and sent. It carries `X-Unsent`, by which programs
 * that know the mark open it for writing.
 *
 * Headers are one line each whatever is typed, beyond ASCII as encoded words; text is quoted-printable, attachments are
 * base64. Nothing is read from a file or fetched.
 *
 * @returns the bytes, lines ending CR LF; the same for the same message
 * @throws Invalid naming the field (`from`, `to`, `id`, `date`, `attachments`) that cannot be meant
 * @see RFC 5322, RFC 2045 to 2047, RFC 2231; test/printing/exchange/message.test.ts
 */
export const emlOf = async (message: Message): Promise<Uint8Array> => {
  if (!ADDRESS.test(message.id) || message.id.length > 200)
    throw Invalid.field('id', 'The identifier of a message looks like an address of mail.');
  const date = new Date(message.date);
  if (Number.isNaN(date.getTime()))
    throw Invalid.field('date', 'The date of the message is no point in time.');
  for (const { type } of message.attachments ?? [])
    if (!/^[a-z]+\/[a-z0-9.+-]+$/.test(type))
      throw Invalid.field('attachments', `“${type.slice(0, 40)}” is no type of file.`);
  const composer = new MailComposer({
    from: addressOf(message.from, 'from'),
    to: message.to.map((each) => addressOf(each, 'to')),
    subject: onOneLine(message.subject),
    text: permittedCharacters(message.text).replace(/\r\n?/g, '\n'),
    textEncoding: 'quoted-printable',
    date,
    messageId: `<${message.id}>`,
    headers: { 'X-Unsent': '1' },
    attachments: (message.attachments ?? []).map((each) => ({
      filename: fileName(each.name),
      contentType: each.type,
      contentTransferEncoding: 'base64',
      content: Buffer.from(each.bytes),
    })),
    baseBoundary: ownBoundary(message),
    newline: 'windows',
    disableFileAccess: true,
    disableUrlAccess: true,
  });
  return new Uint8Array(await composer.compile().build());
};
