import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { expect } from 'vitest';
import onigurumaModule from 'vscode-oniguruma';
import textmateModule from 'vscode-textmate';

const { loadWASM, OnigScanner, OnigString } = onigurumaModule;
const { INITIAL, parseRawGrammar, Registry } = textmateModule;

/** The grammar, as raw JSON text. */
export const grammarText = readFileSync(
  new URL('../../syntaxes/shootplan.tmLanguage.json', import.meta.url),
  'utf8',
);

async function loadGrammar() {
  const wasm = readFileSync(createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm'));
  await loadWASM(wasm);
  const registry = new Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new OnigScanner(patterns),
      createOnigString: (text) => new OnigString(text),
    }),
    loadGrammar: async () => parseRawGrammar(grammarText, 'shootplan.tmLanguage.json'),
  });
  const grammar = await registry.loadGrammar('source.shootplan');
  if (grammar === null) throw new Error('The grammar does not load.');
  return grammar;
}

const grammar = await loadGrammar();

/** The scopes of every character of every line, outermost first. */
export function scopesOf(lines: readonly string[]): string[][][] {
  let state = INITIAL;
  return lines.map((line) => {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, state);
    state = ruleStack;
    return tokens.flatMap(({ startIndex, endIndex, scopes }) =>
      Array.from({ length: Math.min(endIndex, line.length) - startIndex }, () => scopes),
    );
  });
}

/** Whether one of the scopes is `wanted` or a finer one. */
export function within(scopes: readonly string[] | undefined, wanted: string): boolean {
  return (scopes ?? []).some((scope) => scope === wanted || scope.startsWith(`${wanted}.`));
}

/** The stretches of a line that have the scope, as they are written. */
export function stretches(line: string, scopes: readonly string[][], wanted: string): string[] {
  const found: string[] = [];
  let start = -1;
  for (let at = 0; at <= line.length; at += 1) {
    const inside = at < line.length && within(scopes[at], wanted);
    if (inside && start === -1) start = at;
    if (!inside && start !== -1) {
      found.push(line.slice(start, at));
      start = -1;
    }
  }
  return found;
}

const markLine = /^ *#? *(\^+) (\S+)$/;

/**
 * Checks a marked text: a line such as `#   ^^^^ constant.numeric.time` stands below the line that it speaks of, and
 * says that exactly those columns have the scope, the columns beside them (but for indentation) not. Marks are taken out before.
 */
export function expectScopes(marked: string): void {
  const lines: string[] = [];
  const marks: { line: number; start: number; end: number; scope: string }[] = [];
  for (const row of marked.replace(/^\n/, '').split('\n')) {
    const mark = markLine.exec(row);
    if (mark === null) {
      lines.push(row);
      continue;
    }
    const start = row.indexOf('^');
    const end = row.lastIndexOf('^') + 1;
    marks.push({ line: lines.length - 1, start, end, scope: mark[2] ?? '' });
  }
  expect(marks.length, 'the text has no marks').toBeGreaterThan(0);
  const scopes = scopesOf(lines);
  for (const { line, start, end, scope } of marks) {
    const text = lines[line] ?? '';
    const all = scopes[line] ?? [];
    const inside = all.map((list) => within(list, scope));
    const seen = `${text}\n${inside.map((yes) => (yes ? '^' : ' ')).join('')} ${scope}\n`;
    const wanted = inside.slice(start, end);
    expect(wanted.length === end - start && wanted.every(Boolean), seen).toBe(true);
    const indented = text.slice(0, start).trim() === '';
    expect(!indented && inside[start - 1], `begins too early:\n${seen}`).toBeFalsy();
    expect(inside[end] ?? false, `ends too late:\n${seen}`).toBe(false);
  }
}
