// Can the texts of the preview be read? Looked at in the picture of the window, since that alone holds everything that
// lies under a text: its colour is asked of the document, and what is round its letters is read off the pixels.

/**
 * Texts with less contrast than wanted, by WCAG 2's ratio of luminances, in all of a document that may be longer than its
 * frame.
 * @param page the window
 * @param inside the document, as a frame locator; `frame` is the frame's element in the window
 * @returns `{ read, faint }`: how many texts were looked at, and of the faint ones what they say, in what colours
 */
export async function faintTexts(page, { inside, frame, least }) {
  const faint = new Map();
  let read = 0;
  const root = inside.locator('html');
  const { height, shown } = await root.evaluate(node => ({ height: node.scrollHeight, shown: node.clientHeight }));
  // What sticks to the lower edge lies over a part of each screen; so they overlap by half.
  for (let top = 0; top === 0 || top < height - shown / 2; top += shown / 2) {
    await root.evaluate((node, y) => node.ownerDocument.defaultView.scrollTo(0, y), top);
    await page.waitForTimeout(150);
    const texts = await root.evaluate(visibleTexts);
    const box = await frame.boundingBox();
    const shot = await page.screenshot({ type: 'png' });
    const found = await pixelsOf(page, shot.toString('base64'), box, texts);
    read += texts.length;
    texts.forEach(({ text, colour }, i) => {
      const [r, g, b, alpha] = colour;
      for (const { colour: under, share } of found[i]) {
        const ink = [r, g, b].map((each, k) => each * alpha + under[k] * (1 - alpha));
        const ratio = contrast(ink, under);
        // The letters themselves are the pixels in the ink's own colour; were they most, nothing else would be there.
        if (ratio < 1.15 && share < 0.6) continue;
        if (ratio < least) faint.set(text, `'${text}' ${ratio.toFixed(2)}: (${ink.map(Math.round)}) on (${under})`);
      }
    });
  }
  await root.evaluate(node => node.ownerDocument.defaultView.scrollTo(0, 0));
  return { read, faint: [...faint.values()] };
}

/** Runs in the preview's document: texts that nothing covers, with their boxes and their colour as it is painted. */
function visibleTexts(root) {
  const { document } = { document: root.ownerDocument };
  const view = document.defaultView;
  // For the time of this look everything can be hit, so that what lies over a text is known.
  const sheet = new view.CSSStyleSheet();
  sheet.replaceSync('* { pointer-events: auto !important; }');
  document.adoptedStyleSheets = [sheet];
  const canvas = new view.OffscreenCanvas(1, 1).getContext('2d', { willReadFrequently: true });
  const paint = colour => {
    canvas.clearRect(0, 0, 1, 1);
    canvas.fillStyle = colour;
    canvas.fillRect(0, 0, 1, 1);
    const [r, g, b, a] = canvas.getImageData(0, 0, 1, 1).data;
    return [r, g, b, a / 255];
  };
  const found = [];
  const walker = document.createTreeWalker(document.body, view.NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const text = node.data.trim();
    const holder = node.parentElement;
    if (text === '' || !holder.checkVisibility({ opacityProperty: true, visibilityProperty: true })) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const { left, top, width, height } of range.getClientRects()) {
      if (width < 2 || height < 5 || top < 0 || left < 0) continue;
      if (top + height > view.innerHeight || left + width > view.innerWidth) continue;
      const hit = document.elementFromPoint(left + width / 2, top + height / 2);
      if (!hit || !(holder === hit || holder.contains(hit) || hit.contains(holder))) continue;
      const style = view.getComputedStyle(holder);
      const [r, g, b, a] = paint(holder.closest('svg') ? style.fill : style.color);
      let alpha = a;
      for (let at = holder; at; at = at.parentElement) alpha *= Number(view.getComputedStyle(at).opacity);
      found.push({ text, box: { left, top, width, height }, colour: [r, g, b, alpha] });
    }
  }
  document.adoptedStyleSheets = [];
  return found;
}

/** The colours that cover a good part of each box, counted in a window of their own, where pictures may be decoded. */
async function pixelsOf(page, png, frame, texts) {
  const desk = await page.context().newPage();
  try {
    return await desk.evaluate(
      async ({ png: data, frame: { x, y }, boxes }) => {
        const bytes = Uint8Array.from(atob(data), letter => letter.charCodeAt(0));
        const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
        const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d');
        context.drawImage(bitmap, 0, 0);
        return boxes.map(({ left, top, width, height }) => {
          const [w, h] = [Math.ceil(width), Math.ceil(height)];
          const { data: pixels } = context.getImageData(Math.floor(x + left), Math.floor(y + top), w, h);
          const counts = new Map();
          for (let i = 0; i < pixels.length; i += 4) {
            const key = `${pixels[i]},${pixels[i + 1]},${pixels[i + 2]}`;
            counts.set(key, (counts.get(key) ?? 0) + 1);
          }
          return [...counts]
            .map(([key, count]) => ({ colour: key.split(',').map(Number), share: count / (w * h) }))
            .filter(({ share }) => share > 0.2);
        });
      },
      { png, frame, boxes: texts.map(each => each.box) },
    );
  } finally {
    await desk.close();
  }
}

/** Ratio of contrast of two colours by WCAG 2, from 1 to 21. Formula from memory of the recommendation, section 1.4.3. */
function contrast(a, b) {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

function luminance(colour) {
  const [r, g, b] = colour.map(each => {
    const share = each / 255;
    return share <= 0.03928 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
