/** Reads the test runner's own report; the last line counts what passed, failed and was skipped. */
import { readFileSync } from 'node:fs';

/** A run that was cut off leaves no report. */
function readReport() {
  try {
    return JSON.parse(readFileSync(process.argv[2], 'utf8'));
  } catch {
    return { success: false, testResults: [] };
  }
}

const report = readReport();
const tests = report.testResults.flatMap(({ name, assertionResults }) =>
  assertionResults.map(({ status, fullName }) => ({ status, fullName, file: name })),
);
const count = (...statuses) => tests.filter(({ status }) => statuses.includes(status)).length;
const skipped = tests.filter(({ status }) => ['skipped', 'pending', 'todo', 'disabled'].includes(status));
for (const { file, fullName } of skipped) console.log(`skipped: ${file}: ${fullName}`);

const problems = [];
if (!report.success) problems.push('the test run failed');
if (tests.length === 0) problems.push('no test was run');
/** tests/support/homes.ts runs the log's own suite in each of its homes, and names the home. */
const server = ({ file, fullName }) => /[/\\]tests[/\\]log[/\\]/.test(file) && fullName.includes('on a libsql server');
if (process.platform === 'linux') {
  if (skipped.some(server)) problems.push('the suite against the real libsql server was skipped');
  if (!tests.some((test) => test.status === 'passed' && server(test))) {
    problems.push('the suite against the real libsql server did not run');
  }
}
for (const problem of problems) console.log(`failed: ${problem}`);
console.log(`${count('passed')} passed, ${count('failed')} failed, ${skipped.length} skipped`);
process.exitCode = problems.length > 0 ? 1 : 0;
