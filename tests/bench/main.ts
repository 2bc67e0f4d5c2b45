// Prints how long things take, beside what they should take. Nothing here passes or fails: times depend on the machine
// and on what else it does, so look at the ratios first and run it twice.
//
//   npm run bench
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { gzipSync } from 'node:zlib';
import { timeCore } from './core.ts';
import { benchKit } from './plans.ts';
import { timeServer, timeStart } from './server.ts';
import { figure, plainTable, type Runs } from './table.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const server = join(root, 'dist/server-node.cjs');
const sizes = [
  { shots: 10, rounds: 60 },
  { shots: 100, rounds: 30 },
  { shots: 1000, rounds: 8 },
];

function both({ median, p95 }: Runs): string {
  return `${figure(median)} / ${figure(p95)}`;
}

console.log(`Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model ?? 'unknown'}`);
console.log(`Load before: ${loadavg().map(figure).join(' ')}`);
console.log('Times in milliseconds: median / 95th percentile.\n');

const core = sizes.map(({ shots, rounds }) => timeCore(shots, rounds));
console.log(
  plainTable([
    ['Core', ...core.map(({ shots }) => `${shots} shots`), 'aim'],
    ['characters', ...core.map(({ characters }) => String(characters))],
    ['findings', ...core.map(({ findings }) => String(findings))],
    ['parse with yaml alone', ...core.map(({ parse }) => both(parse))],
    ['analyse, all rules, nothing remembered', ...core.map(({ cold }) => both(cold))],
    ['  against parsing alone', ...core.map(({ ratio }) => `× ${both(ratio)}`), '× 1.5'],
    ['analyse after an edit', ...core.map(({ warm }) => both(warm)), '100 shots: 16'],
  ]),
);

if (!existsSync(server)) {
  console.log('\nBuilding dist/ first.');
  spawnSync(process.execPath, [join(root, 'client/build.mjs')], { cwd: root, stdio: 'inherit' });
}
const folder = mkdtempSync(join(tmpdir(), 'shoot-plan-bench-'));
try {
  writeFileSync(join(folder, 'field-bag.shootkit.yaml'), benchKit);
  const folderUri = pathToFileURL(folder).href;
  const start = await timeStart(server, folderUri, 10);
  const served = [];
  for (const { shots, rounds } of sizes) served.push(await timeServer(server, folderUri, shots, rounds));
  console.log();
  console.log(
    plainTable([
      ['Server over stdio', ...served.map(({ shots }) => `${shots} shots`), 'aim'],
      ['edit to findings, the first ten', ...served.map(({ first }) => both(first))],
      ['edit to findings, after those', ...served.map(({ findings }) => both(findings)), '100 shots: 16'],
      ['edit to hints', ...served.map(({ hints }) => both(hints)), '100 shots: 16'],
      ['hover', ...served.map(({ hover }) => both(hover)), '50'],
      ['peak memory, MiB', ...served.map(({ peakMebibytes }) => figure(peakMebibytes)), '1000 shots: 250'],
      ['start to initialized', both(start), '', '', '500'],
    ]),
  );
} finally {
  rmSync(folder, { recursive: true, force: true });
}

console.log();
console.log(
  plainTable([
    ['Bundles, KiB', 'plain', 'gzip'],
    ...readdirSync(join(root, 'dist'))
      .filter((name) => /\.c?js$/.test(name))
      .sort()
      .map((name) => {
        const file = join(root, 'dist', name);
        return [name, figure(statSync(file).size / 1024), figure(gzipSync(readFileSync(file)).length / 1024)];
      }),
  ]),
);
console.log(`\nLoad after: ${loadavg().map(figure).join(' ')}`);
