/**
 * What client and server say to each other beyond the Language Server Protocol. The server never opens a
 * file by itself in a virtual workspace: it asks, and the client answers through the editor's file systems.
 */

/** Request, server to client: the text of one file, by URI. */
export const readFileMethod = 'shootplan/readFile';
export interface ReadFileParams {
  readonly uri: string;
}
/** Without a text, the reason in plain words, as the end of a sentence; `absent` when there is no such file. */
export type ReadFileResult =
  | { readonly text: string }
  | { readonly missing: true; readonly absent?: true; readonly reason: string };

/** Request, server to client: the URIs of every plan and kit in the workspace, sorted. */
export const listFilesMethod = 'shootplan/listFiles';
export interface ListFilesResult {
  readonly uris: readonly string[];
}

/**
 * Notification, client to server: files on disk may have changed; without `uris`, any of them. The client's watchers
 * report nothing in some virtual workspaces.
 */
export const refreshMethod = 'shootplan/refresh';
export interface RefreshParams {
  readonly uris?: readonly string[];
}

/** The client's initialization options: it answers `readFile` and `listFiles`. */
export interface InitializationOptions {
  readonly clientFiles: true;
}
