/**
 * What a frame of the preview costs its main thread on the largest example, in Debian's Chromium. First the mean while the
 * closure plays, while a handle is dragged, while the pointer moves over the figures; an empty frame of the same page
 * stands before them. Then what is drawn in turns, over several frames: the first picture, answers to a drag, another
 * night, zooming, moving along the runway. Of their frames the one in the middle, one of 20, and the dearest are told.
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
const FRAMES_AN_ANSWER = 16;

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

/** Happens a few times, each time as many frames apart as it takes to be drawn. */
const changes = {
  'another night': `() => document.querySelector('[data-act^="night:"]')
    .dispatchEvent(new PointerEvent('pointerup', { bubbles: true }))`,
  zooming: `i => turn({ ctrlKey: true, deltaY: i < 6 ? -1 : 1 })`,
} as const;

function changing(act: string, times: number, apart: number): string {
  return `(async () => {
    const sheet = document.querySelector('.sheet');
    const { x, y, width } = sheet.getBoundingClientRect();
    const turn = by => sheet.dispatchEvent(new WheelEvent('wheel', {
      clientX: x + 0.3 * width, clientY: y + 200, bubbles: true, cancelable: true, ...by,
    }));
    const act = ${act};
    for (let i = 0; i < ${times}; i++) {
      act(i);
      for (let k = 0; k < ${apart}; k++) await new Promise(done => requestAnimationFrame(done));
    }
  })()`;
}

interface Round {
  readonly means: Readonly<Record<string, number>>;
  readonly frames: Readonly<Record<string, readonly number[]>>;
}

async function round(width: number, height: number): Promise<Round> {
  const opened = await openPreview(browser, { width, height });
  const { page } = opened;
  const drawn: Record<string, readonly number[]> = {};
  // Frames in which nothing is drawn don't count.
  const note = async (name: string, act: () => Promise<unknown>): Promise<void> => {
    const times = await frameTimes(page, async () => {
      await act();
    });
    drawn[name] = times.filter(each => each > 1.5);
  };
  await note('first picture', () => opened.say({ type: 'show', data, clock: '14:02' }));
  const session = await page.context().newCDPSession(page);
  // Time of the thread itself: what other programs take away does not count.
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  const means: Record<string, number> = {};
  for (const name of ['empty', 'playing', 'pointing'] as const) {
    await frames(page, session, acts[name]);
    means[name] = await frames(page, session, acts[name]);
  }
  // The end of a deposit that is in sight at this width.
  const ends = data.handles.filter(each => each.moves === 'deposit end').map(each => `[data-handle="${each.id}"]`);
  const grip = (await page.locator(ends.join(',')).first().boundingBox())!;
  const held = { x: grip.x + grip.width / 2, y: grip.y + grip.height / 2 };
  await page.mouse.move(held.x, held.y);
  await page.mouse.down();
  await page.evaluate(`window.held = ${JSON.stringify(held)}`);
  means.dragging = await frames(page, session, acts.dragging);
  const asked = (await opened.heard()).findLast(each => each.type === 'whatIf');
  if (asked?.type !== 'whatIf') throw new Error('nothing was dragged');
  const answers = async (): Promise<void> => {
    // Each answer builds on the one before, and is as different from it as the two pictures are.
    const given = Array.from({ length: ANSWERS }, (_, i) => opened.sender.deliver(i % 2 === 0 ? moved : data));
    await page.evaluate(`(async () => {
      for (const picture of ${JSON.stringify(given)}) {
        window.postMessage({ type: 'whatIf', id: ${asked.id}, picture }, '*');
        for (let i = 0; i < ${FRAMES_AN_ANSWER}; i++) await new Promise(done => requestAnimationFrame(done));
      }
    })()`);
  };
  // The first ones of all that follows warm the code up.
  await answers();
  await note('answers', answers);
  await page.mouse.up();
  await opened.say({ type: 'show', data, clock: '14:02' });
  for (const [name, act] of Object.entries(changes)) {
    await page.evaluate(changing(act, 12, 16));
    await note(name, () => page.evaluate(changing(act, 12, 16)));
    await page.evaluate(changing(act, 6, 16));
  }
  const along = (): Promise<unknown> =>
    page.evaluate(changing('i => turn({ shiftKey: true, deltaX: i < 45 ? 8 : -8 })', 90, 1));
  await page.evaluate(changing(changes.zooming, 5, 16));
  await along();
  await note('moving along', along);
  await opened.close();
  return { means, frames: drawn };
}

for (const [width, height] of [
  [640, 780],
  [1900, 1000],
] as const) {
  const rounds: Round[] = [];
  for (let i = 0; i < ROUNDS; i++) rounds.push(await round(width, height));
  console.log(
    `\n${width} × ${height} px, ms of main-thread work a frame: median of ${ROUNDS} rounds (least, greatest)`,
  );
  for (const name of Object.keys(rounds[0]!.means)) {
    const all = rounds.map(each => each.means[name]!).sort((a, b) => a - b);
    const [least, median, greatest] = [all[0]!, all[Math.floor(all.length / 2)]!, all.at(-1)!];
    console.log(`  ${name.padEnd(14)}${median.toFixed(2).padStart(6)}   (${least.toFixed(2)}, ${greatest.toFixed(2)})`);
  }
  console.log(
    '  drawn in turns: frames of all rounds, the middle one, one of 20, the dearest, how many stay under 8 ms',
  );
  for (const name of Object.keys(rounds[0]!.frames)) {
    const all = rounds.flatMap(each => each.frames[name]!).sort((a, b) => a - b);
    const at = (part: number): string =>
      all[Math.min(all.length - 1, Math.floor(all.length * part))]!.toFixed(1).padStart(6);
    const under = `${((100 * all.filter(each => each < 8).length) / all.length).toFixed(0)} %`;
    console.log(
      `  ${name.padEnd(14)}${String(all.length).padStart(6)}   ${at(0.5)} ${at(0.95)} ${at(1)} ${under.padStart(6)}`,
    );
  }
}
await browser.close();
