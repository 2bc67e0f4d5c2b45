import * as vscode from 'vscode';
import { isKitOrPlan, planFiles } from '../server/lsp/names.ts';
import type { ListFilesResult, ReadFileResult } from '../server/lsp/protocol.ts';
import { isInside } from './inside.ts';

const largestFileBytes = 5 * 1024 * 1024;
const mostFiles = 2000;
const mostFoldersWalked = 500;

/** The text of a kit or a plan, as long as it lies where the server may read; a reason in plain words otherwise. */
export async function readFile(uriText: string): Promise<ReadFileResult> {
  const uri = parse(uriText);
  if (uri === undefined) return missing('its address cannot be understood');
  if (!isKitOrPlan(uri.path)) return missing('it is no kit');
  if (!readableFolders().some((folder) => isInside(folder, uri))) {
    return missing(
      vscode.workspace.workspaceFolders?.length
        ? 'it lies outside the workspace'
        : 'it lies outside the folder of the open plan and the one above it: open the folder that holds both',
    );
  }
  try {
    const { type, size } = await vscode.workspace.fs.stat(uri);
    // Anything else than a file (a folder, a device) could be endless.
    if ((type & vscode.FileType.File) === 0) return missing('it is not a file');
    if (size > largestFileBytes) return missing('it is larger than 5 MiB');
    const bytes = await vscode.workspace.fs.readFile(uri);
    if (bytes.byteLength > largestFileBytes) return missing('it is larger than 5 MiB');
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch (error) {
    if (error instanceof TypeError) return missing('it is not UTF-8 text');
    const code = error instanceof vscode.FileSystemError ? error.code : '';
    return code === 'FileNotFound'
      ? { missing: true, absent: true, reason: 'there is no such file' }
      : missing('it cannot be read');
  }
}

/** Every plan and kit that the server may read. */
export async function listFiles(): Promise<ListFilesResult> {
  const workspace = vscode.workspace.workspaceFolders ?? [];
  const found =
    workspace.length > 0
      ? await vscode.workspace.findFiles(planFiles, '**/node_modules/**', mostFiles)
      : (await Promise.all(openFolders().map((folder) => filesIn(folder)))).flat();
  // Not every virtual file system can be searched; each of them can be walked.
  const walked = found.length === 0 ? (await Promise.all(workspace.map(({ uri }) => walk(uri)))).flat() : [];
  return { uris: [...new Set([...found, ...walked].map(String))].sort().slice(0, mostFiles) };
}

/**
 * The folders of the workspace; without one, those of the plans that are open, and the ones above them, because
 * a kit usually lies beside the plans, as in `../kit/bag.shootkit.yaml`. The root of a file system does not count.
 */
function readableFolders(): vscode.Uri[] {
  const workspace = vscode.workspace.workspaceFolders ?? [];
  if (workspace.length > 0) return workspace.map(({ uri }) => uri);
  return openFolders().flatMap((folder) => {
    const above = vscode.Uri.joinPath(folder, '..');
    return above.path === '/' || /^\/[A-Za-z]:\/?$/.test(above.path) ? [folder] : [folder, above];
  });
}

/** The folders of the plans that are open. */
function openFolders(): vscode.Uri[] {
  return vscode.workspace.textDocuments
    .filter(({ languageId, isUntitled }) => languageId === 'shootplan' && !isUntitled)
    .map(({ uri }) => vscode.Uri.joinPath(uri, '..'));
}

async function walk(root: vscode.Uri): Promise<vscode.Uri[]> {
  const found: vscode.Uri[] = [];
  const folders = [root];
  // The list grows while it is read: nearer folders come first, and their number is bounded.
  for (let index = 0; index < Math.min(folders.length, mostFoldersWalked); index += 1) {
    const folder = folders[index] as vscode.Uri;
    for (const [name, type] of await entriesOf(folder)) {
      const uri = vscode.Uri.joinPath(folder, name);
      if (type & vscode.FileType.File && isKitOrPlan(name)) found.push(uri);
      else if (type === vscode.FileType.Directory && !name.startsWith('.') && name !== 'node_modules')
        folders.push(uri);
    }
  }
  return found;
}

async function filesIn(folder: vscode.Uri): Promise<vscode.Uri[]> {
  const entries = await entriesOf(folder);
  return entries.filter(([name]) => isKitOrPlan(name)).map(([name]) => vscode.Uri.joinPath(folder, name));
}

/** What a folder holds; nothing when it cannot be read. */
async function entriesOf(folder: vscode.Uri): Promise<[string, vscode.FileType][]> {
  try {
    return await vscode.workspace.fs.readDirectory(folder);
  } catch {
    return [];
  }
}

function parse(text: string): vscode.Uri | undefined {
  try {
    return vscode.Uri.parse(text, true);
  } catch {
    return undefined;
  }
}

function missing(reason: string): ReadFileResult {
  return { missing: true, reason };
}
