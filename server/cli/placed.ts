import { existsSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Analysis } from '../analysis.ts';
import { uriKey } from '../plan/kitPath.ts';
import { Lines } from '../text/lines.ts';
import type { Place } from '../text/span.ts';
import type { Analysed } from './analyse.ts';

/** Where something stands, for people and machines: lines and columns from 1, columns in UTF-16 code units, end exclusive. */
export interface Region {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

/** Looks up regions in the texts that one analysis speaks of; their lines are counted once. */
export class Regions {
  readonly #analysis: Analysis;
  readonly #lines = new Map<string, Lines>();

  constructor({ analysis }: Analysed) {
    this.#analysis = analysis;
  }

  of({ uri, span }: Place): Region {
    const lines = this.#linesOf(uri);
    const start = lines.position(span.start);
    const end = lines.position(span.end);
    return {
      line: start.line + 1,
      column: start.character + 1,
      endLine: end.line + 1,
      endColumn: end.character + 1,
    };
  }

  /** The text of the line in which a place begins. */
  lineText({ uri, span }: Place): string {
    const lines = this.#linesOf(uri);
    const line = lines.lineSpan(lines.position(span.start).line);
    return this.#textOf(uri).slice(line.start, line.end);
  }

  #linesOf(uri: string): Lines {
    const key = uriKey(uri);
    const known = this.#lines.get(key) ?? new Lines(this.#textOf(uri));
    this.#lines.set(key, known);
    return known;
  }

  #textOf(uri: string): string {
    const { kit } = this.#analysis;
    return kit !== undefined && uriKey(kit.uri) === uriKey(uri) ? kit.text : this.#analysis.text;
  }
}

/** The path of a place as it is shown: the argument for the analysed file itself, else seen from where the command runs. */
export function pathOf(uri: string, { file, analysis }: Analysed): string {
  if (uri === analysis.uri) return file === '-' ? '<stdin>' : file;
  return uri.startsWith('file:') ? relative(process.cwd(), fileURLToPath(uri)) : uri;
}

/** The folder that holds the repository in which another folder lies; nothing outside of one. */
export function repositoryOf(folder: string): string | undefined {
  for (let at = folder; ; at = dirname(at)) {
    if (existsSync(join(at, '.git'))) return at;
    if (dirname(at) === at) return undefined;
  }
}

/** A URI for a report that travels: relative to the folder `root`, percent-encoded, `/` between the segments. */
export function reportUri(uri: string, root: string): string {
  if (!uri.startsWith('file:')) return uri;
  const path = relative(root, fileURLToPath(uri));
  if (path.startsWith('..') || path.includes(':')) return pathToFileURL(fileURLToPath(uri)).href;
  return path.split(sep).map(encodeURIComponent).join('/');
}
