/**
 * An SVG drawn by our own picture code: the only markup a template places without escaping.
 *
 * Whoever draws must have escaped every word that came from a person before it gets here.
 */
export class SafePicture {
  private constructor(readonly markup: string) {}

  /** Takes finished SVG; refuses what is no single picture or could run or fetch something. */
  static fromOwnDrawing(svg: string): SafePicture {
    const markup = svg.trim();
    if (!markup.startsWith('<svg') || !markup.endsWith('</svg>')) {
      throw new Error('A picture must be one <svg> element.');
    }
    if (/<script|<foreignObject|\son[a-z]+\s*=|(?:href|src)\s*=\s*["'](?!#)|\sstyle\s*=/i.test(markup)) {
      throw new Error('A picture may hold no script, no link out of itself and no style attribute.');
    }
    return new SafePicture(markup);
  }
}
