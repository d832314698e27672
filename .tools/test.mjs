// `npm test`: sets up what is missing, then runs everything that can fail, and closes with one line of counts.
//
// The counts come from the test runner's own report. The steps of the house (types, lint, build …) count as one each,
// and so does a test file that the runner did not report: nothing is skipped in silence.
import { mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join, relative } from 'node:path';
import { ensurePackages, root, run } from './setup.mjs';

const HOST_COUNTS = join(root, 'tests', 'output', 'host', 'counts.json');
const REPORT = join(root, 'tests', 'output', 'report.json');

ensurePackages();

const counts = { passed: 0, failed: 0, skipped: 0 };
step('grammar', '.tools/generate.mjs');
step('types', 'node_modules/typescript/bin/tsc', ['--noEmit', '-p', 'tsconfig.json']);
step('types of the preview', 'node_modules/typescript/bin/tsc', ['--noEmit', '-p', 'extension/preview']);
step('types of the tests in an editor', 'node_modules/typescript/bin/tsc', ['--noEmit', '-p', 'tests/host']);
step('format and lint', 'node_modules/@biomejs/biome/bin/biome', ['check', '.']);
step('build', '.tools/build.mjs');
runTests();
runHostTests();

console.log(`\n${counts.passed} passed, ${counts.failed} failed, ${counts.skipped} skipped`);
process.exitCode = counts.failed === 0 && counts.passed > 0 ? 0 : 1;

function step(name, script, args = []) {
  const began = Date.now();
  const good = run(script, args, { quiet: true }) === 0;
  counts[good ? 'passed' : 'failed'] += 1;
  console.log(`${good ? 'passed' : 'FAILED'}  ${name} (${((Date.now() - began) / 1000).toFixed(1)} s)`);
}

function runTests() {
  mkdirSync(join(root, 'tests', 'output'), { recursive: true });
  rmSync(REPORT, { force: true });
  const status = run('node_modules/vitest/vitest.mjs', [
    'run',
    '--config',
    'tests/vitest.config.ts',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${REPORT}`,
    ...process.argv.slice(2),
  ]);
  const report = readReport();
  if (report === undefined) {
    counts.failed += 1;
    console.log('FAILED  the test runner left no report');
    return;
  }
  counts.passed += report.numPassedTests;
  counts.failed += report.numFailedTests;
  counts.skipped += report.numPendingTests + report.numTodoTests;
  // A file that failed to load holds no test that could have failed.
  const empty = report.testResults.filter(file => file.status === 'failed' && file.assertionResults.length === 0);
  counts.failed += empty.length;
  for (const file of empty) console.log(`FAILED  ${relative(root, file.name)} could not be run`);
  const seen = new Set(report.testResults.map(file => file.name));
  const unseen = process.argv.length > 2 ? [] : testFiles().filter(file => !seen.has(file));
  counts.failed += unseen.length;
  for (const file of unseen) console.log(`FAILED  ${relative(root, file)} is no part of the run`);
  // An error outside any test, such as a rejected promise nobody waits for.
  if (status !== 0 && counts.failed === 0) {
    counts.failed += 1;
    console.log('FAILED  the test runner reported an error outside the tests');
  }
}

/**
 * The tests in a real VS Code leave their counts in a file. `BROOMLINE_HOSTS=none` leaves them
 * out, and says so; a run of some of the tests does too.
 */
function runHostTests() {
  if (process.argv.length > 2) return;
  if (process.env.BROOMLINE_HOSTS === 'none') {
    counts.skipped += 1;
    console.log('skipped  tests in a real VS Code (BROOMLINE_HOSTS=none)');
    return;
  }
  console.log('\nTests in a real VS Code (the first time the editors are installed, some 400 MB) …');
  rmSync(HOST_COUNTS, { force: true });
  run('tests/host/run.mjs');
  try {
    const host = JSON.parse(readFileSync(HOST_COUNTS, 'utf8'));
    for (const key of Object.keys(counts)) counts[key] += host[key];
  } catch {
    counts.failed += 1;
    console.log('FAILED  the tests in a real VS Code left no counts');
  }
}

function readReport() {
  try {
    return JSON.parse(readFileSync(REPORT, 'utf8'));
  } catch {
    return undefined;
  }
}

function testFiles() {
  return readdirSync(join(root, 'tests'), { recursive: true })
    .filter(name => name.endsWith('.test.ts') && !/^(host|output)[\\/]/.test(name))
    .map(name => join(root, 'tests', name));
}
