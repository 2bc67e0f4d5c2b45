import { readdir, readFile, stat } from 'node:fs/promises';
import { join, sep } from 'node:path';
import { isKitOrPlan } from '../lsp/names.ts';

/** Something that keeps the command from running: shown without a stack, exit 2. */
export class CannotRun extends Error {}

/** A file that could not be read, and why, for people. */
export interface Unread {
  readonly file: string;
  readonly message: string;
}

const largestFileBytes = 5 * 1024 * 1024;

/** The files that the arguments name: a file by its path, all plans and kits below a folder, or those that a pattern fits. */
export async function filesOf(
  arguments_: readonly string[],
  { allowEmpty }: { readonly allowEmpty: boolean },
): Promise<readonly string[]> {
  const found: string[] = [];
  for (const argument of arguments_) {
    const files = argument === '-' ? ['-'] : await filesFor(argument);
    if (files.length === 0 && !allowEmpty) {
      throw new CannotRun(`${argument}: no plan or kit is found there. --allow-empty takes that as well.`);
    }
    found.push(...files);
  }
  return [...new Set(found)];
}

async function filesFor(argument: string): Promise<readonly string[]> {
  const state = await stat(argument).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT' || error.code === 'ENOTDIR') return undefined;
    throw new CannotRun(`${argument}: cannot be read (${error.code ?? error.message}).`);
  });
  if (state?.isDirectory()) return below(argument);
  if (state !== undefined) return [argument];
  if (!/[*?]/.test(argument)) return [];
  return matching(argument);
}

/** Every plan and kit below a folder, sorted; hidden folders and installed packages are left out. */
async function below(folder: string): Promise<readonly string[]> {
  const files: string[] = [];
  const entries = await entriesOf(folder);
  for (const entry of entries) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) {
      if (!entry.name.startsWith('.') && entry.name !== 'node_modules') files.push(...(await below(path)));
    } else if (isKitOrPlan(entry.name)) files.push(path);
  }
  return files;
}

/** The files that fit a pattern: `*` and `?` within a name, `**` for any folders. */
async function matching(pattern: string): Promise<readonly string[]> {
  const parts = pattern.split(sep === '\\' ? /[\\/]+/ : /\/+/);
  const start = parts[0] === '' ? '/' : '';
  const found = await matchingParts(start, start === '' ? parts : parts.slice(1));
  return [...new Set(found)].sort();
}

async function matchingParts(folder: string, parts: readonly string[]): Promise<readonly string[]> {
  const [part, ...rest] = parts;
  if (part === undefined) return [];
  if (part === '.' || part === '..') return matchingParts(join(folder, part), rest);
  const files: string[] = [];
  if (part === '**') files.push(...(await matchingParts(folder, rest)));
  for (const entry of await entriesOf(folder === '' ? '.' : folder)) {
    const path = join(folder, entry.name);
    const hidden = entry.name.startsWith('.') || entry.name === 'node_modules';
    if (part === '**') {
      if (entry.isDirectory() && !hidden) files.push(...(await matchingParts(path, parts)));
    } else if (fits(entry.name, part) && !(hidden && part.startsWith('*'))) {
      if (rest.length > 0) files.push(...(entry.isDirectory() ? await matchingParts(path, rest) : []));
      else if (!entry.isDirectory()) files.push(path);
    }
  }
  return files;
}

/** Whether a name fits a pattern of `*` and `?`, in time that grows with the product of their lengths at most. */
export function fits(name: string, pattern: string): boolean {
  let at = 0;
  let from = 0;
  let star = -1;
  let mark = 0;
  while (at < name.length) {
    if (pattern[from] === '?' || (pattern[from] === name[at] && pattern[from] !== '*')) {
      at += 1;
      from += 1;
    } else if (pattern[from] === '*') {
      star = from;
      mark = at;
      from += 1;
    } else if (star >= 0) {
      mark += 1;
      at = mark;
      from = star + 1;
    } else return false;
  }
  while (pattern[from] === '*') from += 1;
  return from === pattern.length;
}

async function entriesOf(folder: string) {
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  return entries.sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** The text of a file, or of the standard input for `-`, without a byte order mark. */
export async function textOf(file: string): Promise<string> {
  const bytes = file === '-' ? await standardInput() : await bytesOf(file);
  if (bytes.byteLength > largestFileBytes) throw new CannotRun(`${nameOf(file)}: larger than 5 MiB.`);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new CannotRun(`${nameOf(file)}: not UTF-8 text.`);
  }
}

async function bytesOf(file: string): Promise<Uint8Array> {
  try {
    const { size } = await stat(file);
    if (size > largestFileBytes) throw new CannotRun(`${file}: larger than 5 MiB.`);
    return await readFile(file);
  } catch (error) {
    if (error instanceof CannotRun) throw error;
    const { code } = error as NodeJS.ErrnoException;
    throw new CannotRun(
      code === 'ENOENT' ? `${file}: there is no such file.` : `${file}: cannot be read (${code}).`,
    );
  }
}

async function standardInput(): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  let size = 0;
  for await (const part of process.stdin) {
    parts.push(part);
    size += part.byteLength;
    if (size > largestFileBytes) break;
  }
  return Buffer.concat(parts);
}

/** How an input is called in messages. */
export function nameOf(file: string): string {
  return file === '-' ? 'standard input' : file;
}
