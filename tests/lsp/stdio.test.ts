import { spawn } from 'node:child_process';
import { mkdir, mkdtemp, realpath, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-jsonrpc/node';
import type { PublishDiagnosticsParams } from 'vscode-languageserver';

let root = '';

beforeAll(async () => {
  root = await realpath(await mkdtemp(join(tmpdir(), 'shootplan-stdio-')));
  await mkdir(join(root, 'plans'));
  await mkdir(join(root, 'kit'));
  await writeFile(join(root, 'kit/bag.shootkit.yaml'), 'kit: Bag\nlenses:\n  - { id: wide, focal: 24 mm }\n');
  await build({
    entryPoints: [fileURLToPath(new URL('../../server/lsp/node.ts', import.meta.url))],
    outfile: join(root, 'server.cjs'),
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    logLevel: 'error',
  });
});

afterAll(() => rm(root, { recursive: true, force: true }));

test('the bundled server speaks to any client over its standard streams, and ends when it is told to', async () => {
  const child = spawn(process.execPath, [join(root, 'server.cjs'), '--stdio'], { stdio: 'pipe' });
  const ended = new Promise<number | null>((resolve) => child.on('close', resolve));
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  const published = new Promise<PublishDiagnosticsParams>((resolve) => {
    connection.onNotification('textDocument/publishDiagnostics', resolve);
  });
  connection.listen();
  // A client without any of our own requests, and a plan opened alone whose kit lies beside its folder.
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: null,
    capabilities: {},
  });
  await connection.sendNotification('initialized', {});
  const uri = pathToFileURL(join(root, 'plans/day.shootplan.yaml')).href;
  const text = `plan: A
date: 2027-03-20
kit: ../kit/bag.shootkit.yaml
spots:
  - id: jetty
    at: 54.4301, -2.6102
    shots:
      - { id: one, lens: wid }
`;
  await connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri, languageId: 'shootplan', version: 1, text },
  });
  const { diagnostics } = await published;
  const unknown = diagnostics.filter(({ code }) => code === 'plan/unknown-id');
  expect(unknown.map(({ message }) => message)).toEqual([expect.stringContaining('Did you mean wide?')]);
  await connection.sendRequest('shutdown');
  await connection.sendNotification('exit');
  expect(await ended).toBe(0);
  connection.dispose();
});
