// What several fresh windows say about the activation of the extension, judged together: a single figure on a machine
// that does other things besides says little.

/**
 * Milliseconds of processor time that activation may take. They hardly depend on what else the machine does, but only Node
 * tells them. Of the wall clock, the fastest window is looked at, and twice as much is left to it: other programs make it
 * longer and never shorter.
 */
const MOST = 300;
/** A window that takes longer than this hangs, however busy the machine is. */
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
    say(`${host}: it takes under ${2 * MOST} ms: ${listed(walls)}`, timed.length > 0 && Math.min(...walls) < 2 * MOST);
    say(`${host}: it hangs in no window`, Math.max(...walls) < HANGS);
    if (processor.length > 0)
      say(`${host}: under ${MOST} ms of the processor's: ${listed(processor)}`, median(processor) < MOST);
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
