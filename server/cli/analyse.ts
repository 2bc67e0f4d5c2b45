import { basename, dirname, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Analysis, analyse, createAnalysisMemory, type Opened } from '../analysis.ts';
import { rules } from '../checks/list.ts';
import { disk } from '../lsp/disk.ts';
import { uriKey } from '../plan/kitPath.ts';
import { textOf } from './inputs.ts';
import { repositoryOf } from './placed.ts';

/** One input, analysed. */
export interface Analysed {
  /** As it was named on the command line. */
  readonly file: string;
  readonly analysis: Analysis;
}

/**
 * Reads and analyses one input by the rules of the editor. `folder` says where its paths count from, when that is not
 * where the file lies: for the standard input, or for a copy that another program has made.
 */
export async function analyseFile(file: string, folder?: string): Promise<Analysed> {
  const text = await textOf(file);
  const path =
    folder === undefined ? resolve(file) : resolve(folder, file === '-' ? 'stdin' : basename(file));
  // Without a folder, the standard input lies nowhere, and its kit can be found nowhere.
  const uri = file === '-' && folder === undefined ? 'stdin:plan' : pathToFileURL(path).href;
  const kits = new Map<string, Opened>();
  const memory = createAnalysisMemory();
  const look = () =>
    analyse({ uri, text }, { rules, memory, open: (kit) => kits.get(uriKey(kit)) ?? { kind: 'pending' } });
  const first = look();
  const wanted = first.kitFile;
  if (wanted?.opened.kind !== 'pending') return { file, analysis: first };
  const result = await disk.read(wanted.uri, { folders: readableFolders(path), plan: uri });
  kits.set(uriKey(wanted.uri), result.kind === 'text' ? { ...result, uri: wanted.uri } : result);
  return { file, analysis: look() };
}

/**
 * Where a kit may lie: below the folder in which the command runs, in the plan's repository, in the plan's own folder or
 * the one above it.
 */
function readableFolders(plan: string): readonly string[] {
  const own = dirname(plan);
  const above = dirname(own);
  const folders = [process.cwd(), own, dirname(above) === above ? undefined : above, repositoryOf(own)];
  return [...new Set(folders.filter((folder) => folder !== undefined))].map(
    (folder) => pathToFileURL(folder).href,
  );
}
