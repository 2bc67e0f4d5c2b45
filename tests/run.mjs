// Runs everything: lint and types, unit tests, the build, end-to-end tests. Goes on after a failure, so that one run
// shows all of it, and ends with one plain line: `N passed, N failed`, and `, N skipped` where some were.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const require = createRequire(import.meta.url);
const vitest = join(dirname(require.resolve('vitest/package.json')), 'vitest.mjs');
const reports = mkdtempSync(join(tmpdir(), 'shoot-plan-tests-'));
const total = { passed: 0, failed: 0, skipped: 0 };

/** Runs a command with its output passed through; whether it ended well. */
function run(command, args, options = {}) {
  const { status, error } = spawnSync(command, args, { cwd: root, stdio: 'inherit', ...options });
  if (error) console.error(error.message);
  return status === 0;
}

/** A step that is no test: it counts only when it fails. */
function step(title, script) {
  console.log(`\n== ${title}`);
  const worked = run('npm', ['run', '--silent', script], { shell: process.platform === 'win32' });
  if (!worked) total.failed += 1;
  return worked;
}

/** A run of vitest: its own report of what passed is added up. */
function suite(title, config) {
  console.log(`\n== ${title}`);
  const report = join(reports, `${config.replaceAll('/', '-')}.json`);
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
  const worked = run(process.execPath, [vitest, 'run', '--config', config, ...reporters]);
  const { passed, failed, skipped } = count(report);
  total.passed += passed;
  // A run that failed without a failed test (it could not start, or something broke beside the tests) counts as one.
  total.failed += failed === 0 && !worked ? 1 : failed;
  total.skipped += skipped;
}

function count(report) {
  let results;
  try {
    results = JSON.parse(readFileSync(report, 'utf8'));
  } catch {
    return { passed: 0, failed: 0, skipped: 0 };
  }
  // A file that failed as a whole (it could not be loaded, or its preparation failed) holds no failed test.
  const brokenFiles = results.testResults.filter(
    ({ status, assertionResults }) =>
      status === 'failed' && !assertionResults.some((test) => test.status === 'failed'),
  );
  return {
    passed: results.numPassedTests,
    failed: results.numFailedTests + brokenFiles.length,
    skipped: results.numPendingTests + results.numTodoTests,
  };
}

try {
  step('Lint and types', 'lint');
  suite('Unit tests', 'tests/vitest.config.ts');
  if (step('Build', 'build')) suite('End-to-end tests', 'tests/e2e/vitest.config.ts');
} finally {
  rmSync(reports, { recursive: true, force: true });
}
process.exitCode = total.failed > 0 || total.passed === 0 ? 1 : 0;
const skipped = total.skipped > 0 ? `, ${total.skipped} skipped` : '';
console.log(`\n${total.passed} passed, ${total.failed} failed${skipped}`);
