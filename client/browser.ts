import { type ExtensionContext, Uri } from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { start } from './start.ts';

/** Web: the server is a web worker. */
export function activate(context: ExtensionContext): Promise<void> {
  const script = Uri.joinPath(context.extensionUri, 'dist/server-worker.js').toString(true);
  const worker = new Worker(script);
  return start(
    context,
    (options) => new LanguageClient('shootPlan', 'Shoot Plan', worker, options),
    () => worker.terminate(),
  );
}
