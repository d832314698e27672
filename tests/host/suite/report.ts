/** Runs the tests and says on the console, in one line, how many of them did what; whoever started the editor reads it. */
export const COUNTS = 'BROOMLINE-COUNTS';

export async function report(start: (done: (failures: number) => void) => Mocha.Runner): Promise<void> {
  const failures = await new Promise<number>(resolve => {
    const runner = start(resolve);
    runner.on('pass', test => console.log(`passed  ${test.fullTitle()} (${test.duration ?? 0} ms)`));
    runner.on('fail', (test, error) => console.log(`FAILED  ${test.fullTitle()}\n${error.stack ?? error.message}`));
    runner.on('end', () => {
      const { passes, failures: failed, pending } = runner.stats ?? { passes: 0, failures: 1, pending: 0 };
      console.log(`${COUNTS} ${JSON.stringify({ passed: passes, failed, skipped: pending })}`);
    });
  });
  if (failures > 0) throw new Error(`${failures} tests failed`);
}
