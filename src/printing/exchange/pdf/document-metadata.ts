import { leaf, stem, type XmlElement, xmlOf } from '../xml.js';

/** What is said about a document inside it. */
export type DocumentFacts = {
  readonly title?: string;
  readonly language?: string;
  readonly producer?: string;
  readonly made?: string;
  readonly changed: string;
};

const NAMES = {
  'xmlns:rdf': 'http://www.w3.org/1999/02/22-rdf-syntax-ns#',
  'xmlns:dc': 'http://purl.org/dc/elements/1.1/',
  'xmlns:xmp': 'http://ns.adobe.com/xap/1.0/',
  'xmlns:pdf': 'http://ns.adobe.com/pdf/1.3/',
};

/** A list with one entry, or nothing. */
const listed = (
  name: string,
  list: 'rdf:Alt' | 'rdf:Bag',
  item: XmlElement | undefined,
): XmlElement | undefined => item && stem(name, {}, stem(list, {}, item));

/**
 * The metadata packet of a PDF: title, language, who made it and when. It claims conformance to nothing.
 *
 * @param facts instants as RFC 3339
 * @see ISO 16684-1 (XMP, 2012) section 7; test/printing/exchange/pdf/attached-xml.test.ts
 */
export const metadataPacket = (facts: DocumentFacts): string => {
  const packet = xmlOf(
    stem(
      'x:xmpmeta',
      { 'xmlns:x': 'adobe:ns:meta/' },
      stem(
        'rdf:RDF',
        NAMES,
        stem(
          'rdf:Description',
          { 'rdf:about': '' },
          leaf('dc:format', 'application/pdf'),
          listed('dc:title', 'rdf:Alt', leaf('rdf:li', facts.title, { 'xml:lang': 'x-default' })),
          listed('dc:language', 'rdf:Bag', leaf('rdf:li', facts.language)),
          leaf('pdf:Producer', facts.producer),
          leaf('xmp:CreateDate', facts.made),
          leaf('xmp:ModifyDate', facts.changed),
          leaf('xmp:MetadataDate', facts.changed),
        ),
      ),
    ),
  ).replace(/^<\?xml[^>]*>\n/, '');
  return `<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>\n${packet}<?xpacket end="r"?>`;
};
