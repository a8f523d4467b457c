import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import typescript from 'typescript';

const compilerOptions = { module: typescript.ModuleKind.ESNext, target: typescript.ScriptTarget.ES2023 };

export const resolve = (specifier, context, next) => {
  if (!specifier.startsWith('.') || !context.parentURL) return next(specifier, context);
  const url = new URL(specifier, context.parentURL);
  if (url.pathname.endsWith('.js') && !existsSync(url)) url.pathname = url.pathname.replace(/js$/, 'ts');
  return next(url.href, context);
};

export const load = async (url, context, next) => {
  if (!url.startsWith('file:') || !url.endsWith('.ts')) return next(url, context);
  const { outputText } = typescript.transpileModule(readFileSync(fileURLToPath(url), 'utf8'), {
    compilerOptions,
  });
  return { format: 'module', source: outputText, shortCircuit: true };
};
