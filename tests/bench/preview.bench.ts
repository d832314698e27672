/**
 * What a frame of the preview costs its main thread on the largest example, in Debian's Chromium: while the closure plays,
 * while a handle is dragged, while the pointer moves over the figures, while answers to a drag come in. An empty frame
 * of the same page stands first. An answer is drawn in several frames, of which the dearest is told, too.
 * `node tests/bench/preview.bench.ts`; the aim is 8 ms in any frame.
 */
import type { CDPSession } from 'playwright-core';
import { pictureData } from '../../language/pictures/data.ts';
import { startBrowser } from '../preview/chromium.ts';
import { frameTimes } from '../preview/frames.ts';
import { built, type Opened, openPreview } from '../preview/host.ts';
import { exampleTexts, pictured } from '../support/pictures.ts';

const FRAMES = 60;
const ROUNDS = 5;
const ANSWERS = 24;
const FRAMES_AN_ANSWER = 14;

await built();
const texts = exampleTexts();
const data = pictureData(await pictured('tern-sands/tender-2031.broom', texts));
// The handle that is dragged is the end of a deposit: nearly all of its work changes.
const end = data.handles.find(each => each.moves === 'deposit end')!;
const { start: from, end: to, file } = end.place;
const spec = file.replace(/^file:\/\//, '');
const moved = pictureData(
  await pictured('tern-sands/tender-2031.broom', {
    ...texts,
    [spec]: `${texts[spec]!.slice(0, from)}${end.value - 15}${texts[spec]!.slice(to)}`,
  }),
);
const browser = await startBrowser();

/** One thing that happens once in each frame, as a script of the page. */
const acts = {
  empty: '() => {}',
  playing: `() => {
    const slider = document.querySelector('input[type=range]');
    slider.value = String(Number(slider.value) + 60);
    slider.dispatchEvent(new Event('input', { bubbles: true }));
  }`,
  pointing: `i => move(box.x + box.width * (0.1 + 0.005 * i), box.y + box.height * 0.3)`,
  dragging: `i => move(at.x + 40 * Math.sin(i / 6), at.y)`,
} as const;

async function frames(page: Opened['page'], session: CDPSession, act: string): Promise<number> {
  const busy = async (): Promise<number> => {
    const { metrics } = await session.send('Performance.getMetrics');
    return metrics.find(each => each.name === 'TaskDuration')!.value;
  };
  const before = await busy();
  await page.evaluate(`(async () => {
    const sheet = document.querySelector('.sheet');
    const box = sheet.getBoundingClientRect();
    const at = window.held ?? { x: 0, y: 0 };
    const move = (clientX, clientY) =>
      sheet.dispatchEvent(new PointerEvent('pointermove', { clientX, clientY, bubbles: true, buttons: 0 }));
    const act = ${act};
    for (let i = 0; i < ${FRAMES}; i++) {
      act(i);
      await new Promise(done => requestAnimationFrame(done));
    }
  })()`);
  return (1000 * ((await busy()) - before)) / FRAMES;
}

async function round(width: number, height: number): Promise<Readonly<Record<string, number>>> {
  const opened = await openPreview(browser, { width, height });
  const { page } = opened;
  await opened.say({ type: 'show', data, clock: '14:02' });
  const session = await page.context().newCDPSession(page);
  // Time of the thread itself: what other programs take away does not count.
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  const found: Record<string, number> = {};
  for (const name of ['empty', 'playing', 'pointing'] as const) {
    await frames(page, session, acts[name]);
    found[name] = await frames(page, session, acts[name]);
  }
  // The end of a deposit that is in sight at this width.
  const ends = data.handles.filter(each => each.moves === 'deposit end').map(each => `[data-handle="${each.id}"]`);
  const grip = (await page.locator(ends.join(',')).first().boundingBox())!;
  const held = { x: grip.x + grip.width / 2, y: grip.y + grip.height / 2 };
  await page.mouse.move(held.x, held.y);
  await page.mouse.down();
  await page.evaluate(`window.held = ${JSON.stringify(held)}`);
  found.dragging = await frames(page, session, acts.dragging);
  const asked = (await opened.heard()).findLast(each => each.type === 'whatIf');
  if (asked?.type !== 'whatIf') throw new Error('nothing was dragged');
  // Each answer builds on the one before, and is as different from it as the two pictures are.
  const answers = Array.from({ length: ANSWERS }, (_, i) => opened.sender.deliver(i % 2 === 0 ? moved : data));
  await page.evaluate(`window.answers = ${JSON.stringify(answers)}`);
  const times = await frameTimes(page, async () => {
    await page.evaluate(`(async () => {
      for (const picture of window.answers) {
        window.postMessage({ type: 'whatIf', id: ${asked.id}, picture }, '*');
        for (let i = 0; i < ${FRAMES_AN_ANSWER}; i++) await new Promise(done => requestAnimationFrame(done));
      }
    })()`);
  });
  // The first answers warm the code up.
  const warm = times.slice(times.length / 2).sort((a, b) => a - b);
  found['an answer'] = (FRAMES_AN_ANSWER * warm.reduce((sum, each) => sum + each, 0)) / warm.length;
  found['its dearest'] = warm.at(-1)!;
  found['one in 20'] = warm[Math.floor(warm.length * 0.95)]!;
  await page.mouse.up();
  await opened.close();
  return found;
}

for (const [width, height] of [
  [640, 780],
  [1900, 1000],
] as const) {
  const rounds = [];
  for (let i = 0; i < ROUNDS; i++) rounds.push(await round(width, height));
  console.log(`\n${width} × ${height} px, ms of main-thread work: median of ${ROUNDS} rounds (least, greatest)`);
  for (const name of Object.keys(rounds[0]!)) {
    const all = rounds.map(each => each[name]!).sort((a, b) => a - b);
    const [least, median, greatest] = [all[0]!, all[Math.floor(all.length / 2)]!, all.at(-1)!];
    console.log(`  ${name.padEnd(12)}${median.toFixed(2)}   (${least.toFixed(2)}, ${greatest.toFixed(2)})`);
  }
}
await browser.close();
