import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { disk } from './disk.ts';
import { startServer } from './server.ts';

// Speaks as the arguments say: --stdio, --node-ipc, --socket=N or --pipe=NAME.
startServer(createConnection(ProposedFeatures.all), { disk });
