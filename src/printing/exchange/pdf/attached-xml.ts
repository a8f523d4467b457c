import { AFRelationship, PDFDocument, PDFHexString, PDFName, PDFString } from 'pdf-lib';
import type { Instant } from '../../../domain/kernel/calendar-date.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import { metadataPacket } from './document-metadata.js';
import { srgbProfile } from './srgb-profile.js';

export type Attachment = {
  /** When the file is put together; usually when the paper was issued, so that the same paper gives the same bytes. */
  readonly at: Instant;
  /** Its name among the attachments: letters, digits, dots, dashes. */
  readonly name?: string;
  /** What it is, in words. */
  readonly description?: string;
};

const words = (value: unknown): string | undefined =>
  value instanceof PDFString || value instanceof PDFHexString ? value.decodeText() : undefined;

/** Screen colours, said once for the whole document. */
const outputIntent = (pdf: PDFDocument): void => {
  if (pdf.catalog.has(PDFName.of('OutputIntents'))) return;
  const profile = pdf.context.register(pdf.context.flateStream(srgbProfile(), { N: 3 }));
  const intent = pdf.context.obj({
    Type: 'OutputIntent',
    S: 'GTS_PDFA1',
    OutputConditionIdentifier: PDFString.of('sRGB IEC61966-2.1'),
    Info: PDFString.of('sRGB IEC61966-2.1'),
    DestOutputProfile: profile,
  });
  pdf.catalog.set(PDFName.of('OutputIntents'), pdf.context.obj([intent]));
};

const metadata = (pdf: PDFDocument, at: Instant): void => {
  const packet = metadataPacket({
    title: pdf.getTitle(),
    language: words(pdf.catalog.lookup(PDFName.of('Lang'))),
    producer: pdf.getProducer(),
    made: pdf.getCreationDate()?.toISOString(),
    changed: at,
  });
  const stream = pdf.context.stream(new TextEncoder().encode(packet), { Type: 'Metadata', Subtype: 'XML' });
  pdf.catalog.set(PDFName.of('Metadata'), pdf.context.register(stream));
};

/**
 * A PDF with the invoice's data attached as XML, associated with the document as another form of what it says, with
 * metadata and an output intent. Call it "PDF with attached invoice data": conformance to PDF/A is not claimed, since no
 * validator has confirmed it. Pages, text, tags and outline stay as they are; the stored original is not touched.
 *
 * @param pdf as printed
 * @param xml of ciiOf
 * @returns a new PDF; the same for the same PDF, XML and instant
 * @throws Invalid when the bytes are no PDF that can be read, or the name is no plain file name
 * @see ISO 32000-2 (2020) sections 7.11.4, 14.3.2, 14.11.5, 14.13; test/printing/exchange/pdf/attached-xml.test.ts
 */
export const withAttachedXml = async (
  pdf: Uint8Array,
  xml: string,
  { at, name = 'invoice.xml', description = 'The data of this invoice' }: Attachment,
): Promise<Uint8Array> => {
  if (!/^[A-Za-z0-9][A-Za-z0-9._-]{0,99}$/.test(name))
    throw new Invalid('An attachment has a plain file name.');
  const document = await PDFDocument.load(pdf, { updateMetadata: false }).catch((error: unknown) => {
    throw new Invalid(
      `This is no PDF that can be read: ${error instanceof Error ? error.message : 'unknown'}`,
    );
  });
  const made = new Date(at);
  await document.attach(new TextEncoder().encode(xml), name, {
    mimeType: 'text/xml',
    description,
    creationDate: made,
    modificationDate: made,
    afRelationship: AFRelationship.Alternative,
  });
  document.setModificationDate(made);
  outputIntent(document);
  metadata(document, at);
  return document.save({ updateFieldAppearances: false, addDefaultPage: false });
};
