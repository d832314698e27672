/** The `broomline` command: the process round server/cli/run.ts. */
import settings from '../../package.json' with { type: 'json' };
import { run } from './run.ts';
import { wantsColour } from './terminal.ts';

// A reader that has seen enough (`broomline check . | head`) closes the pipe; that is no failure of ours.
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit();
    throw error;
  });
}

process.exitCode = await run(process.argv.slice(2), {
  cwd: process.cwd(),
  version: settings.version,
  // Lines wider than this are hard to read, whatever the window.
  columns: Math.min(process.stdout.columns ?? 110, 120),
  colour: wantsColour(process.env, process.stdout.isTTY === true),
  out: text => process.stdout.write(text),
  err: text => process.stderr.write(text),
  // Loaded only when it is asked for: the other commands need nothing of it.
  serve: async () => (await import('../main/node.ts')).serve(),
});
