import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { startServer } from './server.ts';

// The global scope of a web worker is the port to the page that started it.
const port = globalThis as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];
startServer(createConnection(new BrowserMessageReader(port), new BrowserMessageWriter(port)), {});
