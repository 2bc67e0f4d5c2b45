// Bundles the extension, both language servers and the command line into dist/.
//
//   node client/build.mjs [--minify] [--sizes]
//
// --minify   for packaging: smaller, without source maps
// --sizes    prints the size of every bundle
import { readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
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

const licenseFile = 'dist/third-party-licenses.txt';

/** Builds every bundle and the licenses of what went into them; returns the bundles, relative to the project. */
export async function bundleAll({ minify = false } = {}) {
  const results = await Promise.all(
    bundles.map(({ entry, file, ...options }) => {
      rmSync(`${root}${file}.map`, { force: true });
      return build({
        absWorkingDir: root,
        entryPoints: [entry],
        outfile: file,
        bundle: true,
        minify,
        sourcemap: !minify,
        sourcesContent: false,
        legalComments: 'none',
        metafile: true,
        logLevel: 'warning',
        ...options,
      });
    }),
  );
  const inputs = results.flatMap(({ metafile }) => Object.keys(metafile.inputs));
  writeFileSync(root + licenseFile, licenses(inputs));
  return bundles.map(({ file }) => file);
}

/** Name, version and license text of every package among the files that were bundled. */
function licenses(inputs) {
  const folders = inputs.map((path) => /^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path)?.[0]);
  return [...new Set(folders.filter((folder) => folder !== undefined))]
    .sort()
    .map((folder) => {
      const { name, version, license } = JSON.parse(readFileSync(`${root}${folder}/package.json`, 'utf8'));
      const file = readdirSync(root + folder).find((entry) => /^(licen[cs]e|copying)/i.test(entry));
      const text = file === undefined ? '' : readFileSync(`${root}${folder}/${file}`, 'utf8').trim();
      return `${name} ${version} (${license ?? 'as follows'})\n\n${text}\n`;
    })
    .join(`\n${'-'.repeat(80)}\n\n`);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const files = await bundleAll({ minify: process.argv.includes('--minify') });
  if (process.argv.includes('--sizes')) {
    for (const file of files) {
      console.log(`${String(Math.ceil(statSync(root + file).size / 1024)).padStart(6)} KiB  ${file}`);
    }
  }
}
