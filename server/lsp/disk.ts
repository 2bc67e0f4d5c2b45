import { constants, type Dirent, unwatchFile, watchFile } from 'node:fs';
import { open, readdir, realpath } from 'node:fs/promises';
import { dirname, isAbsolute, join, relative, sep } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { isKitOrPlan } from './names.ts';
import type { Disk, FileResult, Scope } from './runtime.ts';

export const largestFileBytes = 5 * 1024 * 1024;
const mostFiles = 2000;
const mostFoldersWalked = 5000;

/** How often the state of a watched file is looked at. */
const lookEveryMs = 1000;

/**
 * The files of this machine. A plan comes from anywhere, so the kit that it names is read only where its author's
 * project is: inside a folder of the workspace. Without one, inside the plan's own folder or the folder above it,
 * because a kit usually lies beside the plans, as in `../kit/bag.shootkit.yaml`; the topmost folder of the machine does
 * not count as such. What counts is where a file really is, after all symbolic links, and that it is a kit or a plan by
 * that name too, so that a link cannot lead to anything else.
 */
export const disk: Disk = {
  has: (uri) => /^file:/i.test(uri),

  async read(uri, scope) {
    try {
      const path = await realpath(fileURLToPath(uri));
      if (!isKitOrPlan(path)) return refused('It is a link to something that is no kit.');
      const folders = await readableFolders(scope);
      if (!folders.some((folder) => isInside(folder, path))) {
        return refused(
          scope.folders.length > 0
            ? 'It lies outside the workspace.'
            : 'It lies outside the folder of this plan and the one above it. Open the folder that holds both.',
        );
      }
      return await readText(path);
    } catch (error) {
      return isAbsent(error) ? { kind: 'missing' } : refused('It cannot be opened.');
    }
  },

  watch(uri, changed) {
    let path: string;
    try {
      path = fileURLToPath(uri);
    } catch {
      return () => {};
    }
    // By looking at the file: news of the system is not to be had from network folders and in containers.
    watchFile(path, { interval: lookEveryMs, persistent: false }, changed);
    return () => unwatchFile(path, changed);
  },

  async list(folders) {
    const found: string[] = [];
    const waiting = folders.filter((uri) => disk.has(uri)).map((uri) => fileURLToPath(uri));
    // The list grows while it is read: nearer folders come first.
    for (let index = 0; index < Math.min(waiting.length, mostFoldersWalked); index += 1) {
      const folder = waiting[index] as string;
      for (const entry of await entriesOf(folder)) {
        const path = join(folder, entry.name);
        if (entry.isFile() && isKitOrPlan(entry.name)) found.push(pathToFileURL(path).href);
        else if (entry.isDirectory() && !entry.name.startsWith('.') && entry.name !== 'node_modules')
          waiting.push(path);
      }
      if (found.length >= mostFiles) break;
    }
    return [...new Set(found)].sort().slice(0, mostFiles);
  },
};

async function readableFolders({ folders, plan }: Scope): Promise<readonly string[]> {
  if (folders.length > 0)
    return realPaths(folders.filter((uri) => disk.has(uri)).map((uri) => fileURLToPath(uri)));
  if (!disk.has(plan)) return [];
  const own = dirname(fileURLToPath(plan));
  const above = dirname(own);
  return realPaths(dirname(above) === above ? [own] : [own, above]);
}

/** Where folders really are; those that are not there are left out. */
async function realPaths(paths: readonly string[]): Promise<readonly string[]> {
  const real = await Promise.all(paths.map((path) => realpath(path).catch(() => undefined)));
  return real.filter((path) => path !== undefined);
}

/** Whether a real path lies below a real folder. */
export function isInside(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way !== '' && way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}

async function readText(path: string): Promise<FileResult> {
  // Without waiting for a writer, should it be a pipe.
  const file = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  try {
    const state = await file.stat();
    if (!state.isFile()) return refused('It is not a file.');
    if (state.size > largestFileBytes) return refused('It is larger than 5 MiB.');
    const bytes = await file.readFile();
    if (bytes.byteLength > largestFileBytes) return refused('It is larger than 5 MiB.');
    return decoded(bytes);
  } finally {
    await file.close();
  }
}

/** The text without a byte order mark, as editors hold it. */
function decoded(bytes: Uint8Array): FileResult {
  try {
    return { kind: 'text', text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return refused('It is not UTF-8 text.');
  }
}

async function entriesOf(folder: string): Promise<readonly Dirent[]> {
  try {
    return await readdir(folder, { withFileTypes: true });
  } catch {
    return [];
  }
}

function isAbsent(error: unknown): boolean {
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  return code === 'ENOENT' || code === 'ENOTDIR';
}

function refused(reason: string): FileResult {
  return { kind: 'refused', reason };
}
