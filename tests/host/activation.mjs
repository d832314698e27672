// What several fresh windows say about the activation of the extension, judged together: a single figure on a machine
// that does other things besides says little.

/**
 * Milliseconds of processor time that activation may take on a machine that does the piece of work of the suite
 * (suite/activation.ts) in QUICK ms, as plain Node does it on two virtual cores (measured: 11.5–13). Each window does it
 * just before: a machine is slower while others use it, and both take longer then, never shorter, so the quickest window
 * counts. Only Node tells processor time. The wall clock is told, but says more of what else is going on: of it, only a
 * window that hangs is found.
 */
const MOST = 300;
const QUICK = 12;
const HANGS = 10_000;

const MARK = 'BROOMLINE-ACTIVATION';

/** Judges what the windows of each host printed; says it on the console and returns the counts. */
export function activationCounts(hosts) {
  const counts = { passed: 0, failed: 0, skipped: 0 };
  const say = (what, holds) => {
    counts[holds ? 'passed' : 'failed'] += 1;
    console.log(`${holds ? 'passed ' : 'FAILED '} ${what}`);
  };
  for (const [host, windows] of Object.entries(hosts)) {
    const seen = windows.map(({ how, code, lines }) => {
      const line = lines.find(each => each.includes(MARK));
      if (code !== 0 || line === undefined) console.log(lines.filter(each => /^\S*Error/.test(each)).join('\n'));
      return code === 0 && line !== undefined ? JSON.parse(line.slice(line.indexOf('{'))) : { how };
    });
    say(
      `${host}: a window without a file of the language does not activate it`,
      seen.every(each => each.idle === true),
    );
    say(
      `${host}: a file of the language does`,
      seen.filter(each => each.how === 'by the language').every(each => each.active === true),
    );
    // Where it was active before it was asked, there is nothing to measure.
    const timed = seen.filter(each => each.how === 'asked for' && each.idle === true);
    const walls = timed.map(each => each.wall ?? Number.POSITIVE_INFINITY);
    const processor = timed.map(each => each.processor).filter(each => typeof each === 'number');
    say(`${host}: it hangs in no window: ${listed(walls)}`, timed.length > 0 && Math.max(...walls) < HANGS);
    if (processor.length > 0) {
      const most = MOST * Math.max(1, median(timed.map(each => each.pace)) / QUICK);
      say(
        `${host}: under ${MOST} ms of the processor's, now ${most.toFixed(0)} ms: ${listed(processor)}`,
        Math.min(...processor) < most,
      );
    }
    console.log(`        the server answers after ${listed(timed.map(each => each.ready ?? Number.NaN))}`);
  }
  return counts;
}

function listed(milliseconds) {
  return `${milliseconds.map(each => each.toFixed(0)).join(', ')} ms`;
}

function median(values) {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
}
