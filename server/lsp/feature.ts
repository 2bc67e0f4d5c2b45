import type { Connection, ServerCapabilities } from 'vscode-languageserver';
import type { Client } from './client.ts';
import type { Workspace } from './workspace.ts';

/** One thing that the editor can ask for: what is announced for it, and how its requests are answered. */
export interface Feature {
  capabilities(client: Client): ServerCapabilities;
  /** `workspace` may be called once the client has initialized the server, so in every handler. */
  register(connection: Connection, workspace: () => Workspace): void;
}
