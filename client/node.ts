import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { start } from './start.ts';

/** Desktop: the server is a child process. */
export function activate(context: ExtensionContext): Promise<void> {
  const module = context.asAbsolutePath('dist/server-node.cjs');
  const server = { module, transport: TransportKind.ipc };
  return start(
    context,
    (options) => new LanguageClient('shootPlan', 'Shoot Plan', { run: server, debug: server }, options),
  );
}
