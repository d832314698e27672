/** Entry of the suite where extensions run in a browser's worker. */
import 'mocha/mocha.js';
import { report } from './report.ts';

export async function run(): Promise<void> {
  mocha.setup({ ui: 'tdd', timeout: 60_000, reporter: 'spec', color: false });
  await import('./suite.ts');
  await report(done => mocha.run(done));
}
