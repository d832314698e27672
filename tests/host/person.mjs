// The extension as a person uses it: keys, mouse, and what is to be seen on the screen. In a browser's VS Code, once in
// light and once in dark, and what is to be read in both high contrasts too. Pictures of the window are kept in
// tests/output/host.
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { assert } from 'chai';
import { freePort, serveWebEditor } from '../../.tools/editor.mjs';
import { openBrowser } from './browser.mjs';
import { faintTexts } from './contrast.mjs';

const COMMAND_OR_CONTROL = 'Control';

/** Themes by the name that goes into the pictures' names. `least` is the ratio of contrast that its texts have to have. */
const THEMES = {
  light: { title: 'Light Modern', kind: 'vs', scheme: 'light', least: 4.5 },
  dark: { title: 'Dark Modern', kind: 'vs-dark', scheme: 'dark', least: 4.5 },
  'high-contrast-light': { title: 'Light High Contrast', kind: 'hc-light', scheme: 'light', least: 7 },
  'high-contrast-dark': { title: 'Dark High Contrast', kind: 'hc-black', scheme: 'dark', least: 7 },
};

/** Runs everything; returns the counts. */
export async function person({ browser, editor, folder, out, stage }) {
  const counts = { passed: 0, failed: 0, skipped: 0 };
  for (const [theme, { scheme }] of Object.entries(THEMES).filter(
    ([each]) => !process.env.TH || process.env.TH === each,
  )) {
    const port = await freePort();
    const server = await serveWebEditor({ ...editor, folder, port, extension: stage(SETTINGS) });
    const window = await openBrowser(browser, { theme: scheme });
    try {
      const { page } = window;
      let failures = 0;
      const step = async (name, run) => {
        const began = Date.now();
        // Each step begins where the one before ended; after three failures nothing more is learned.
        if (failures >= 3) {
          counts.failed += 1;
          console.log(`FAILED  ${theme}: ${name} (not begun)`);
          return;
        }
        try {
          await run();
          counts.passed += 1;
          console.log(`passed  ${theme}: ${name} (${Date.now() - began} ms)`);
        } catch (error) {
          counts.failed += 1;
          failures += 1;
          console.log(`FAILED  ${theme}: ${name}\n${error?.stack ?? error}`);
          await page.screenshot({ path: join(out, `failed-${theme}-${counts.failed}.png`) });
          await page.keyboard.press('Escape');
        }
      };
      page.setDefaultTimeout(15_000);
      await page.goto(server.address);
      await asPerson(page, step, {
        ...THEMES[theme],
        brief: theme.startsWith('high-contrast'),
        picture: name => page.screenshot({ path: join(out, `${name}-${theme}.png`) }),
      });
      await step('nothing outside this machine was asked for', () =>
        assert.deepEqual([...new Set(window.outside)], []),
      );
    } finally {
      await window.close();
      await server.close();
    }
  }
  rmSync(folder, { recursive: true, force: true });
  return counts;
}

/** What the tests want otherwise than a newcomer finds it: room at 1280 px. */
const SETTINGS = { 'workbench.startupEditor': 'none', 'editor.minimap.enabled': false };

/** Everything, or of it only what is looked at and not done: `brief`. */
async function asPerson(page, step, { title, kind, least, brief, picture }) {
  const editor = page.locator('.editor-instance .monaco-editor').first();
  const file = name => page.locator('.explorer-folders-view .monaco-list-row', { hasText: name });
  // The preview's own document, inside the editor's frames.
  const frame = page.locator('iframe.webview.ready');
  const inside = page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
  const doing = brief ? async () => {} : step;
  const toText = () => page.keyboard.press(`${COMMAND_OR_CONTROL}+1`);
  /** The lines on the screen, in their order, which is not that of the document. */
  const lines = async () => {
    const all = await editor
      .locator('.view-line')
      .evaluateAll(nodes =>
        nodes.map(node => ({ top: node.getBoundingClientRect().top, text: node.textContent ?? '' })),
      );
    return all.sort((x, y) => x.top - y.top).map(each => ({ ...each, text: each.text.replaceAll('\u00a0', ' ') }));
  };
  const text = async () => (await lines()).map(each => each.text).join('\n');
  const find = async words => {
    await toText();
    await page.keyboard.press(`${COMMAND_OR_CONTROL}+f`);
    await page.locator('.find-widget.visible textarea').first().fill(words);
    await page.keyboard.press('Enter');
    await page.keyboard.press('Escape');
  };
  const retype = async (old, words) => {
    await find(old);
    await page.keyboard.type(words);
  };
  const cursorLine = async () => {
    const shown = await page.locator('.statusbar-item', { hasText: /^Ln \d+/ }).textContent();
    return Number(/Ln (\d+)/.exec(shown)[1]);
  };
  /** What stands around the cursor, a few lines up and down. */
  const around = async () => {
    const box = await editor.locator('.cursors-layer .cursor').first().boundingBox();
    return (await lines())
      .filter(each => box && Math.abs(each.top - box.y) < 60)
      .map(each => each.text)
      .join('\n');
  };

  await step('opens a job from the list of files', async () => {
    await file('tern-sands').click();
    await file('tender-2031').dblclick();
    await editor.locator('.view-line', { hasText: 'TernSands2031' }).first().waitFor();
    await page.locator('.codelens-decoration', { hasText: 'm²' }).first().waitFor();
    assert.isFalse(await page.locator('.notification-toast').isVisible());
  });

  await step('chooses the colours', async () => {
    await page.keyboard.press(`${COMMAND_OR_CONTROL}+k`);
    await page.keyboard.press(`${COMMAND_OR_CONTROL}+t`);
    await page.locator('.quick-input-list .monaco-list-row', { hasText: 'Dark Modern' }).first().waitFor();
    await page.keyboard.type(title);
    await page.waitForTimeout(400);
    await page.keyboard.press('Enter');
    await page.locator(`.monaco-workbench.${kind}`).waitFor();
  });

  await step('types an error and sees it underlined', async () => {
    await find('build-up:   heavy');
    await page.keyboard.type('build-up:   haevy');
    await editor.locator('.squiggly-error').first().waitFor();
  });

  await step('reads it in the list of problems', async () => {
    await page.keyboard.press(`${COMMAND_OR_CONTROL}+Shift+M`);
    const row = page.locator('.markers-panel .monaco-list-row', { hasText: 'haevy' });
    assert.match(await row.first().textContent(), /unknown-word/);
    await picture('error');
    await page.keyboard.press(`${COMMAND_OR_CONTROL}+Shift+M`);
  });

  await doing('reads the hover', async () => {
    await editor
      .locator('.view-line span', { hasText: /^haevy$/ })
      .last()
      .hover({ position: { x: 12, y: 8 } });
    const hover = page.locator('.monaco-hover:visible', { hasText: 'haevy' }).first();
    assert.match(await hover.textContent(), /heavy/);
    // It fades in.
    await page.waitForTimeout(300);
    await picture('hover');
    await page.keyboard.press('Escape');
  });

  await step('mends it from the light bulb', async () => {
    await editor
      .locator('.view-line span', { hasText: /^haevy$/ })
      .last()
      .click();
    await page.keyboard.press(`${COMMAND_OR_CONTROL}+.`);
    const fix = page.locator('.action-widget .monaco-list-row', { hasText: 'heavy' }).first();
    await fix.waitFor();
    await picture('fix');
    await page.keyboard.press('Enter');
    await editor.locator('.squiggly-error').first().waitFor({ state: 'detached' });
    assert.match(await text(), /build-up:\s+heavy/);
  });

  await step('opens the preview and reads the verdict', async () => {
    await page.keyboard.press(`${COMMAND_OR_CONTROL}+b`);
    await page.locator('.editor-actions .action-label[aria-label*="Preview"]').first().click();
    const verdict = inside.locator('h1').first();
    await verdict.waitFor();
    await until('it says how many closures the job takes', async () =>
      /\d closures/.test((await verdict.textContent()) ?? ''),
    );
    await inside.locator('[data-thing^="bay/"]').first().waitFor();
  });

  await doing('clicks a bar of the night sheet and lands in the text', async () => {
    await find('job TernSands2031');
    const bars = await inside
      .locator('[data-thing^="activity/"]')
      .evaluateAll(nodes =>
        nodes.map(node => node.getBoundingClientRect()).map(({ width, height }) => ({ width, height })),
      );
    // Bars stand upright; what the passes leave in the chart beside it lies.
    const bar = bars.findIndex(({ width, height }) => width > 8 && width < 40 && height > 16);
    await inside.locator('[data-thing^="activity/"]').nth(bar).click();
    await until('the step of the method, or the work, is where the cursor is', async () =>
      /\b(step|work) \w+ \{/.test(await around()),
    );
    await picture('landed');
  });

  const START = '[data-handle$="#Touchdown04/0/chainage"]';

  await doing('clicks the deposit and lands in its block', async () => {
    // The closures are gone through until the one that works on this end of the runway is shown.
    for (const night of await inside.locator('[aria-label="Closure"] button').all()) {
      if (await inside.locator(START).isVisible()) break;
      await night.click();
      await page.waitForTimeout(300);
    }
    const deposit = inside.locator('[data-thing="deposit/0"]').first();
    const [frame, free] = [await page.locator('iframe.webview.ready').boundingBox(), await deposit.evaluate(freePoint)];
    assert.isNotNull(free, 'some of the deposit is free of handles and numbers');
    await page.mouse.click(frame.x + free.x, frame.y + free.y);
    await until('the deposit is where the cursor is', async () => /deposit Touchdown04/.test(await around()));
  });

  await doing('drags an end of the deposit and sees the text change', async () => {
    assert.match(await text(), /\n\s*150\s+8\s+8/);
    const box = await inside.locator(START).boundingBox();
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let i = 1; i <= 12; i += 1) await page.mouse.move(x + i, y);
    await until('the verdict says what would be', async () =>
      /was \d/.test((await inside.locator('.head').textContent()) ?? ''),
    );
    await picture('drag');
    await page.mouse.up();
    // Lines are drawn anew after the edit: for a moment there may be none.
    let chainage = 150;
    await until('the number is larger', async () => {
      chainage = Number(/\n\s*(\d+)\s+8\s+8\s*\n\s*300\s+10\.5/.exec(await text())?.[1]);
      return chainage > 150;
    });
    assert.equal(chainage % 5, 0, `${chainage} m is a whole step of 5 m`);
    await until(
      'the preview has the new number',
      async () => Number(await inside.locator(START).getAttribute('aria-valuenow')) === chainage,
    );
  });

  await doing('takes it back with one undo', async () => {
    await toText();
    await page.keyboard.press(`${COMMAND_OR_CONTROL}+z`);
    await until('the old number is back', async () => /\n\s*150\s+8\s+8/.test(await text()));
  });

  await doing('moves in the text and sees the place marked in the picture', async () => {
    await find('work South');
    await page.keyboard.press('ArrowRight');
    await until('a frame with the line number is drawn', async () =>
      ((await inside.locator('body').textContent()) ?? '').includes(`line ${await cursorLine()}`),
    );
  });

  await doing('asks what a number comes from', async () => {
    await command(page, 'Broomline: Explain a Quantity');
    await page.locator('.quick-input-list .monaco-list-row').first().waitFor();
    await page.keyboard.type('South.product');
    await page.locator('.quick-input-list .monaco-list-row', { hasText: 'South.product' }).first().waitFor();
    await page.keyboard.press('Enter');
    await page.locator('.tab', { hasText: 'South.product' }).first().waitFor();
    await picture('explained');
    const tab = page.locator('.tab', { hasText: 'South.product' }).first();
    await tab.hover();
    await tab.locator('.codicon-close').click();
    // The preview was hidden meanwhile; it draws again as it was.
    await inside.locator('[data-thing^="bay/"]').first().waitFor();
  });

  await doing('sees the state of the job in the language status', async () => {
    await toText();
    await page.locator('#status\\.languageStatus').click();
    const status = page.locator('.hover-language-status, .monaco-hover:visible', { hasText: 'closures' }).first();
    assert.match(await status.textContent(), /waived/);
    await page.keyboard.press('Escape');
  });

  await step('looks at it in two sizes', async () => {
    await find('deposit Touchdown04');
    // A pointer that rests on something has its say over the picture.
    await page.mouse.move(120, 10);
    for (const [width, height] of [
      [1280, 800],
      [1920, 1080],
    ]) {
      await page.setViewportSize({ width, height });
      await inside.locator('[data-thing^="bay/"]').first().waitFor();
      // The preview draws again after it was resized; a frame later it stands.
      await page.waitForTimeout(700);
      await picture(`editor-${width}x${height}`);
    }
    await page.setViewportSize({ width: 1280, height: 800 });
  });

  await step('can read every text of the preview, that of a good job and that of one with an error', async () => {
    await page.setViewportSize({ width: 1920, height: 1080 });
    await inside.locator('summary', { hasText: 'How long the product stands' }).click();
    const look = () => faintTexts(page, { inside, frame, least });
    const good = await look();
    assert.isAbove(good.read, 100);
    await retype('build-up:   heavy', 'build-up:   haevy');
    await inside.locator('[data-finding]', { hasText: 'haevy' }).first().waitFor();
    const wrong = await look();
    await picture('wrong');
    await retype('build-up:   haevy', 'build-up:   heavy');
    await inside.locator('[data-finding]', { hasText: 'haevy' }).first().waitFor({ state: 'detached' });
    await inside.locator('summary', { hasText: 'How long the product stands' }).click();
    await page.setViewportSize({ width: 1280, height: 800 });
    const faint = [...new Set([...good.faint, ...wrong.faint])];
    assert.isEmpty(faint, `contrast below ${least}:\n${faint.join('\n')}`);
  });

  await doing('reloads the window and has the preview again as it was', async () => {
    const hours = inside.locator('[aria-label="Hours"] button').last();
    const night = inside.locator('[aria-label="Closure"] button').last();
    const opened = inside.locator('details[id^="table-"]').first();
    await night.click();
    await hours.click();
    await opened.locator('summary').click();
    assert.equal(await hours.getAttribute('aria-pressed'), 'true');
    const was = await inside.locator('main svg').first().getAttribute('aria-label');
    // The preview keeps what is looked at once it rests. An editor writes that down when its window is left; a browser gives it no time for that while it closes.
    await page.waitForTimeout(500);
    await leaveWindow(page);
    await page.reload();
    await inside.locator('[data-thing^="bay/"]').first().waitFor({ timeout: 30_000 });
    // The first picture may still be that of a schedule which is not the best; what is kept fits the last one.
    const pressed = async button => (await button.getAttribute('aria-pressed')) === 'true';
    await until('the hours are as large as before', () => pressed(hours));
    await until('the same closure is shown', () => pressed(night));
    await until('the table is open', async () => (await opened.getAttribute('open')) !== null);
    await until(
      'the picture is the same',
      async () => (await inside.locator('main svg').first().getAttribute('aria-label')) === was,
    );
    // Live, not a picture of before.
    await retype('build-up:   heavy', 'build-up:   haevy');
    await inside.locator('[data-finding]', { hasText: 'haevy' }).first().waitFor();
    await retype('build-up:   haevy', 'build-up:   heavy');
    await inside.locator('[data-finding]', { hasText: 'haevy' }).first().waitFor({ state: 'detached' });
  });

  await doing('goes through the walkthrough', async () => {
    await command(page, 'Welcome: Open Walkthrough');
    await page.locator('.quick-input-list .monaco-list-row').first().waitFor();
    await page.keyboard.type('rubber');
    await page.locator('.quick-input-list .monaco-list-row', { hasText: 'rubber removal' }).first().click();
    await page.locator('.gettingStartedContainer', { hasText: 'Read what is wrong' }).first().waitFor();
    // Its picture is a document of its own, and comes a little later.
    await page.waitForTimeout(1_000);
    await picture('walkthrough');
    const step = page.locator('.getting-started-step', { hasText: 'Read what is wrong' });
    await step.click();
    await step.locator('.monaco-button', { hasText: 'Show the problems' }).click();
    await step.locator('.codicon-getting-started-step-checked.complete').first().waitFor();
  });
}

/** Goes to another window for a moment, and comes back. */
async function leaveWindow(page) {
  // A page that is driven takes itself for the one that is used, whichever that is.
  const protocol = await page.context().newCDPSession(page);
  await protocol.send('Emulation.setFocusEmulationEnabled', { enabled: false });
  const other = await page.context().newPage();
  await other.bringToFront();
  await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
  await page.waitForTimeout(1_500);
  await other.close();
  await page.bringToFront();
}

/** A point of a shape where nothing else lies over it, and not at its edge. Runs in the preview's document. */
function freePoint(node) {
  const { left, top, width, height } = node.getBoundingClientRect();
  const is = (x, y) => {
    const hit = node.ownerDocument.elementFromPoint(x, y);
    return hit?.closest('[data-thing]') === node && !hit.closest('[data-handle], [data-act]');
  };
  for (let i = 1; i < 60; i += 1) {
    for (let j = 1; j < 60; j += 1) {
      const [x, y] = [left + (width * i) / 60, top + (height * j) / 60];
      if ([-1.5, 0, 1.5].every(dx => [-1.5, 0, 1.5].every(dy => is(x + dx, y + dy)))) return { x, y };
    }
  }
  return null;
}

async function command(page, name) {
  await page.keyboard.press('F1');
  const input = page.locator('.quick-input-widget .quick-input-box input');
  await input.waitFor();
  await input.fill(`>${name}`);
  // What is chosen by Enter is the first row.
  await until(`'${name}' is first`, async () => {
    const first = page.locator('.quick-input-list .monaco-list-row').first();
    return ((await first.textContent()) ?? '').includes(name);
  });
  await page.keyboard.press('Enter');
}

/** Waits until something holds; a generous ceiling catches what never comes. */
async function until(what, holds) {
  const end = Date.now() + 20_000;
  while (!(await holds())) {
    if (Date.now() > end) throw new Error(`it never came that ${what}`);
    await new Promise(resolve => setTimeout(resolve, 60));
  }
}
