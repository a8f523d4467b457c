import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Handlebars from 'handlebars';
import { frameOf } from './page-frame.js';
import type { PageModel } from './page-model.js';
import { parseStrictly } from './strictness.js';
import { TemplateFault } from './template-fault.js';
import { templateFiles } from './template-files.js';
import { templateWords } from './words.js';

type Drawing = Handlebars.TemplateDelegate;

/**
 * Draws pages and papers from the templates folder. `clients/list` is clients/list.hbs; a component is
 * `components/<name>`. A component sees only the parameters it is given.
 */
export class Templates {
  private readonly engine = Handlebars.create();
  private readonly drawings = new Map<string, Drawing>();
  private readonly files: Map<string, string>;

  /**
   * @param folder the templates folder
   * @param keep compile each template once (the default); false reads it again at every drawing
   */
  constructor(
    readonly folder: string,
    private readonly keep = true,
  ) {
    this.engine.registerHelper(templateWords as unknown as Handlebars.HelperDeclareSpec);
    this.files = templateFiles(folder);
    for (const name of this.files.keys()) {
      this.engine.registerPartial(name, (context: unknown, options?: Handlebars.RuntimeOptions) =>
        this.draw(name, context, options),
      );
    }
  }

  /** A whole page: the template inside a layout. */
  render(name: string, model: object, layout = 'layouts/page'): string {
    const body = this.renderBare(name, model);
    return this.renderBare(layout, frameOf(model as PageModel, body));
  }

  /** The template alone: a part of a page, or a paper, which brings its own layout. */
  renderBare(name: string, model: object): string {
    return this.draw(name, model);
  }

  /** The name of every template, in order. */
  names(): string[] {
    return [...this.files.keys()];
  }

  private draw(name: string, context: unknown, options?: Handlebars.RuntimeOptions): string {
    try {
      return this.drawing(name)(context, options);
    } catch (cause) {
      throw cause instanceof TemplateFault ? cause : new TemplateFault(name, cause);
    }
  }

  private drawing(name: string): Drawing {
    const known = this.drawings.get(name);
    if (known) return known;
    const path = this.files.get(name);
    if (path === undefined) throw new Error('there is no such file in the templates folder.');
    const drawing = this.engine.compile(parseStrictly(readFileSync(join(this.folder, path), 'utf8')), {
      strict: true,
      explicitPartialContext: true,
      preventIndent: true,
    });
    if (this.keep) this.drawings.set(name, drawing);
    return drawing;
  }
}
