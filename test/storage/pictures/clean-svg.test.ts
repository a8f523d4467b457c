import { describe, expect, it } from 'vitest';
import { cleanSvg } from '../../../src/storage/pictures/clean-svg.js';

const svg = (inside: string, said = 'viewBox="0 0 10 10"'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${said}>${inside}</svg>`;

describe('a drawing that may stand on a paper', () => {
  it('is written anew: shapes, colours, words and what refers to itself', () => {
    expect(
      cleanSvg(
        `<?xml version="1.0"?><!DOCTYPE svg><!-- drawn by hand -->${svg(
          '<defs><linearGradient id="g"><stop offset="0" stop-color="#fff"/></linearGradient><path id="p" d="M0 0L9 9"/></defs>' +
            '<g fill="url(#g)" style="stroke: #000; fill: url(\'#g\')"><use xlink:href="#p"/><text x="1" y="2">Q &amp; D &lt;</text></g>',
        )}`,
      ),
    ).toBe(
      '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10">' +
        '<defs><linearGradient id="g"><stop offset="0" stop-color="#fff"/></linearGradient><path id="p" d="M0 0L9 9"/></defs>' +
        '<g fill="url(#g)" style="stroke: #000; fill: url(\'#g\')"><use href="#p"/><text x="1" y="2">Q &amp; D &lt;</text></g></svg>',
    );
  });

  it('loses what drawing programs remark beside it, and every attribute nobody listed', () => {
    const drawn = cleanSvg(
      `<svg xmlns="http://www.w3.org/2000/svg" xmlns:x="urn:some-program" viewBox="0 0 1 1" x:place="on the shelf"><metadata>secret</metadata><x:view><path d="M0 0"/></x:view><title>t</title><animate attributeName="x"/><path d="M1 1" data-odd="1" x:label="l"/></svg>`,
    );
    expect(drawn).toBe('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"><path d="M1 1"/></svg>');
  });

  it('keeps a picture that is carried inside, and takes the link off a shape', () => {
    const dot = 'data:image/png;base64,iVBORw0KGgo=';
    expect(
      cleanSvg(svg(`<a href="https://a.example/"><image href="${dot}" width="1" height="1"/></a>`)),
    ).toBe(
      `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><g><image href="${dot}" width="1" height="1"/></g></svg>`,
    );
  });

  it('gets a view from its width and height', () => {
    expect(cleanSvg(svg('<path d="M0 0"/>', 'width="20mm" height="8.5mm"'))).toContain(
      'viewBox="0 0 20 8.5"',
    );
    for (const said of ['', 'width="100%" height="5"', 'viewBox="0 0 0 9"', 'viewBox="a b c d"'])
      expect(() => cleanSvg(svg('<path d="M0 0"/>', said))).toThrow('how large it is');
  });
});

describe('a drawing that runs or fetches is refused', () => {
  it.each([
    ['<script>1</script>', 'holds <script>'],
    ['<g><x:script xmlns:x="http://www.w3.org/2000/svg">1</x:script></g>', 'holds <script>'],
    ['<unknown><script/></unknown>', 'holds <script>'],
    ['<foreignObject><p xmlns="http://www.w3.org/1999/xhtml">x</p></foreignObject>', 'holds <foreignObject>'],
    ['<path d="M0 0" onload="x()"/>', 'holds a program'],
    ['<path d="M0 0" ONCLICK="x()"/>', 'holds a program'],
    ['<image href="http://a.example/x.png"/>', 'outside itself'],
    ['<image xlink:href="file:///etc/passwd"/>', 'outside itself'],
    ['<image href="data:image/svg+xml;base64,PHN2Zy8+"/>', 'outside itself'],
    ['<image href="data:text/html;base64,PGI+"/>', 'outside itself'],
    ['<use href="other.svg#a"/>', 'outside itself'],
    ['<use href="javascript:x()"/>', 'outside itself'],
    ['<path fill="url(http://a.example/#g)"/>', 'outside itself'],
    ['<path fill="&#x75;rl(//a.example)"/>', 'outside itself'],
    ['<path style="fill: url( &quot;//a.example&quot; )"/>', 'outside itself'],
    ['<path style="fill: u\\72l(//a.example)"/>', 'outside itself'],
    ['<style>@import "//a.example/x.css";</style>', 'outside itself'],
    ['<style>@im<!-- -->port "//a.example";</style>', 'outside itself'],
    ['<style><![CDATA[@font-face{src:url(//a.example)}]]></style>', 'outside itself'],
    ['<style>path{fill:url(<g/>//a.example)}</style>', 'outside itself'],
    ['<feImage href="http://a.example"/>', 'holds <feImage>'],
    ['<iframe src="http://a.example"/>', 'holds <iframe>'],
  ])('%s', (inside, sentence) => {
    expect(() => cleanSvg(svg(inside))).toThrow(sentence);
  });

  it('with words of its own in the head, or a style sheet from elsewhere', () => {
    expect(() => cleanSvg(`<!DOCTYPE svg [<!ENTITY a "aaaa">]>${svg('<text>&a;</text>')}`)).toThrow(
      'words of its own',
    );
    expect(() => cleanSvg(`<?xml-stylesheet href="//a.example/x.css"?>${svg('')}`)).toThrow('outside itself');
  });

  it('when it is damaged, something else, or made to draw for ever', () => {
    expect(() => cleanSvg('<svg xmlns="http://www.w3.org/2000/svg"><path></svg>')).toThrow(
      'no well-formed SVG',
    );
    expect(() => cleanSvg('<html xmlns="http://www.w3.org/1999/xhtml"/>')).toThrow('no SVG drawing');
    expect(() => cleanSvg('just words')).toThrow('no well-formed SVG');
    expect(() => cleanSvg(svg('<text>&nbsp;</text>'))).toThrow('no well-formed SVG');
    const levels = Array.from(
      { length: 40 },
      (_, at) => `<g id="l${at + 1}"><use href="#l${at}"/><use href="#l${at}"/></g>`,
    );
    expect(() => cleanSvg(svg(`<path id="l0" d="M0 0"/>${levels.join('')}`))).toThrow(
      'repeats itself too often',
    );
    expect(() => cleanSvg(svg('<g id="a"><use href="#a"/></g>'))).toThrow('repeats itself too often');
    expect(() => cleanSvg(svg('<g>'.repeat(100) + '</g>'.repeat(100)))).toThrow('too many parts');
    expect(() => cleanSvg(svg('<path/>'.repeat(20_001)))).toThrow('too many parts');
  });
});
