// A first look, with nothing installed but the project's own dependencies: builds the extension, prints the day
// of the clean sample, and serves an editor with the extension in it.
//
//   npm start [-- [FOLDER] [--port N] [--no-build]]
//
// FOLDER       what the editor opens; samples/ if not given
// --port N     the port on 127.0.0.1; any free one if not given
// --no-build   serve what dist/ holds
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { bundleAll } from './build.mjs';
import { serveWebEditor, showing } from './web-editor.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const cleanSample = 'dawn-to-noon.shootplan.yaml';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { port: { type: 'string' }, 'no-build': { type: 'boolean' } },
});
const folder = resolve(positionals[0] ?? join(root, 'samples'));
const sample = join(folder, cleanSample);

if (!values['no-build']) await bundleAll();
if (existsSync(sample)) {
  spawnSync(process.execPath, [join(root, 'dist/shootplan.cjs'), 'day', sample], { stdio: 'inherit' });
}

const editor = await serveWebEditor({ folder, ...(values.port ? { port: Number(values.port) } : {}) });
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) {
  process.once(signal, () => editor.stop().then(() => process.exit(0)));
}
console.log(`
Open this in a browser to read and write plans (what you save stays in the page; Ctrl+C ends the editor):
${editor.url}${existsSync(sample) ? showing(cleanSample) : ''}`);
