/** What came of reading a file. Reasons are whole sentences for people. */
export type FileResult =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'missing' }
  | { readonly kind: 'refused'; readonly reason: string };

/** Where files may be read: the folders of the workspace, and the plan that asks. */
export interface Scope {
  /** URIs; empty when no folder is open. */
  readonly folders: readonly string[];
  readonly plan: string;
}

/** What a host can do that the server cannot do everywhere. */
export interface Runtime {
  /** Files that the server reads by itself; every other one it asks the client for. */
  readonly disk?: Disk;
}

/** The files of the machine that the server runs on. */
export interface Disk {
  /** Whether files under this URI are its own. */
  has(uri: string): boolean;
  /** Reads a kit or a plan, if it lies where it may be read. Never rejects. */
  read(uri: string, scope: Scope): Promise<FileResult>;
  /** Calls `changed` whenever the file has come, gone or changed, until the function returned is called. */
  watch(uri: string, changed: () => void): () => void;
  /** The URIs of all plans and kits below the folders, sorted. Never rejects. */
  list(folders: readonly string[]): Promise<readonly string[]>;
}
