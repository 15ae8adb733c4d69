/** What the test runner's JSON report says, as names: a count alone hides which test was left out. */
import { relative } from 'node:path';

/**
 * @typedef {{ fullName: string, status: string, failureMessages?: string[] | null }} TestResult
 * @typedef {{ name: string, status: string, message?: string, assertionResults: TestResult[] }} FileResult
 */

/**
 * @param {{ testResults: FileResult[] }} report
 * @param {string} top file names are given from here
 * @returns {{ passed: number, failures: string[], skipped: string[] }}
 */
export function countTests(report, top) {
  let passed = 0;
  /** @type {string[]} */
  const failures = [];
  /** @type {string[]} */
  const skipped = [];
  for (const file of report.testResults) {
    const name = relative(top, file.name);
    const before = failures.length;
    for (const test of file.assertionResults) {
      if (test.status === 'passed') passed += 1;
      else if (test.status === 'failed') failures.push(`${name}: ${test.fullName}`);
      else skipped.push(`${name}: ${test.fullName} (${test.status})`);
    }
    // A file that fails with no failed test of its own did not load, or a hook of it failed.
    if (file.status === 'failed' && failures.length === before)
      failures.push(`${name}: ${firstLine(file.message) || 'does not load, or a hook of it failed'}`);
  }
  return { passed, failures, skipped };
}

/** @param {string | undefined} text */
function firstLine(text) {
  return (text ?? '').split('\n', 1)[0];
}
