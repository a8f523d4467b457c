import Handlebars from 'handlebars';

/** Words whose arguments may be missing: they are how a template asks whether something is there. */
const asking = new Set(['if', 'unless', 'has', 'optional']);

interface Call {
  path?: hbs.AST.Expression;
  name?: hbs.AST.Expression;
  params: hbs.AST.Expression[];
  hash?: hbs.AST.Hash;
}

const calledName = (call: Call): string => (call.path as hbs.AST.PathExpression | undefined)?.original ?? '';

/**
 * Handlebars' strict mode checks `{{word}}` but lets a missing argument through, so that a misspelt
 * list shows as an empty one. This marks the arguments too, and refuses what stays unchecked.
 */
class ArgumentsAreStrict extends Handlebars.Visitor {
  override MustacheStatement(call: hbs.AST.MustacheStatement): void {
    this.mark(call);
    super.MustacheStatement(call);
  }

  override BlockStatement(call: hbs.AST.BlockStatement): void {
    for (const program of [call.program, call.inverse] as (hbs.AST.Program | undefined)[]) {
      if (program && (program.blockParams ?? []).length > 0) {
        throw new Error(
          `"as |…|" in {{#${calledName(call)}}} is not checked for missing words; use this and ../`,
        );
      }
    }
    this.mark(call);
    super.BlockStatement(call);
  }

  override SubExpression(call: hbs.AST.SubExpression): void {
    this.mark(call);
    super.SubExpression(call);
  }

  override PartialStatement(call: hbs.AST.PartialStatement): void {
    this.mark(call);
    super.PartialStatement(call);
  }

  override PartialBlockStatement(call: hbs.AST.PartialBlockStatement): void {
    this.mark(call);
    super.PartialBlockStatement(call);
  }

  private mark(call: Call): void {
    if (asking.has(calledName(call))) return;
    const values = [...call.params, ...(call.hash?.pairs ?? []).map((pair) => pair.value)];
    for (const value of values) {
      if (value.type === 'PathExpression') (value as { strict?: boolean }).strict = true;
    }
  }
}

/** Reads a template's text; a word that is missing when it is drawn will throw wherever it stands. */
export const parseStrictly = (source: string): hbs.AST.Program => {
  const program = Handlebars.parse(source);
  new ArgumentsAreStrict().accept(program);
  return program;
};
