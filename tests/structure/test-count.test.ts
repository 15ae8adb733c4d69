/** The last line of `npm test` is only as good as its count: nothing left out of it, nothing left out in silence. */
import { expect, test } from 'vitest';
import { countTests } from '../../scripts/test-count.mjs';

const result = (fullName: string, status: string) => ({ fullName, status });

test('tests that pass, fail and do not run are told apart and named', () => {
  const report = {
    testResults: [
      {
        name: '/clone/tests/a.test.ts',
        status: 'passed',
        assertionResults: [result('one', 'passed'), result('two', 'skipped'), result('three', 'todo')],
      },
      {
        name: '/clone/tests/b.test.ts',
        status: 'failed',
        assertionResults: [result('four', 'failed'), result('five', 'passed')],
      },
    ],
  };
  expect(countTests(report, '/clone')).toEqual({
    passed: 2,
    failures: ['tests/b.test.ts: four'],
    skipped: ['tests/a.test.ts: two (skipped)', 'tests/a.test.ts: three (todo)'],
  });
});

test('a file that does not load, and one whose hook fails after tests that passed, count as failures', () => {
  const report = {
    testResults: [
      { name: '/clone/tests/broken.test.ts', status: 'failed', message: 'Cannot find module x\n  at y', assertionResults: [] },
      { name: '/clone/tests/hook.test.ts', status: 'failed', message: '', assertionResults: [result('one', 'passed')] },
    ],
  };
  expect(countTests(report, '/clone')).toEqual({
    passed: 1,
    failures: ['tests/broken.test.ts: Cannot find module x', 'tests/hook.test.ts: does not load, or a hook of it failed'],
    skipped: [],
  });
});
