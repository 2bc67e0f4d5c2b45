// Bundles the extension, both language servers and the command line into dist/.
//
//   node client/build.mjs [--minify] [--sizes]
//
// --minify   for packaging: smaller, without source maps
// --sizes    prints the size of every bundle
import { existsSync, rmSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));

/** What runs in Node: the desktop client, the server as a child process, the command line. */
const node = { platform: 'node', format: 'cjs', target: 'node20' };
/** What runs in a browser. A web extension is loaded as CommonJS, a web worker as a plain script. */
const browser = { platform: 'browser', target: 'es2022', mainFields: ['browser', 'module', 'main'] };

const bundles = [
  { entry: 'client/node.ts', file: 'dist/client-node.cjs', ...node, external: ['vscode'] },
  { entry: 'client/browser.ts', file: 'dist/client-web.js', ...browser, format: 'cjs', external: ['vscode'] },
  { entry: 'server/lsp/node.ts', file: 'dist/server-node.cjs', ...node },
  { entry: 'server/lsp/browser.ts', file: 'dist/server-worker.js', ...browser, format: 'iife' },
  {
    entry: 'server/cli/main.ts',
    file: 'dist/shootplan.cjs',
    ...node,
    banner: { js: '#!/usr/bin/env node' },
  },
];

/** Builds every bundle; returns the files written, relative to the project. */
export async function bundleAll({ minify = false } = {}) {
  const present = bundles.filter(({ entry }) => existsSync(root + entry));
  for (const { entry } of bundles.filter((bundle) => !present.includes(bundle))) {
    console.log(`${entry} is not there yet: left out.`);
  }
  await Promise.all(
    present.map(({ entry, file, ...options }) => {
      rmSync(`${root}${file}.map`, { force: true });
      return build({
        absWorkingDir: root,
        entryPoints: [entry],
        outfile: file,
        bundle: true,
        minify,
        sourcemap: !minify,
        sourcesContent: false,
        legalComments: 'linked',
        logLevel: 'warning',
        ...options,
      });
    }),
  );
  return present.map(({ file }) => file);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const files = await bundleAll({ minify: process.argv.includes('--minify') });
  if (process.argv.includes('--sizes')) {
    for (const file of files) {
      console.log(`${String(Math.ceil(statSync(root + file).size / 1024)).padStart(6)} KiB  ${file}`);
    }
  }
}
