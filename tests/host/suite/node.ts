/** Entry of the suite where extensions run in Node. Mocha comes from the project's packages, where this file's bundle finds it. */
import Mocha from 'mocha';
import { report } from './report.ts';

export async function run(): Promise<void> {
  const mocha = new Mocha({ ui: 'tdd', timeout: 60_000, color: false, reporter: 'spec' });
  mocha.suite.emit('pre-require', globalThis as never, '', mocha);
  await import('./suite.ts');
  await report(done => mocha.run(done));
}
