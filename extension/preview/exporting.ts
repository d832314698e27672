/** A picture of what is shown, for a file: SVG with the colours of the editor's theme, or the same as PNG. */
import type { PictureData } from '../../language/pictures/data.ts';
import type { Layout, SheetView } from '../../language/pictures/layout.ts';
import { renderSheet } from '../../language/pictures/render.tsx';
import { type Theme, themes } from '../../language/pictures/style.ts';
import type { Translate } from '../../language/pictures/words.ts';

export async function exportPicture(
  format: 'svg' | 'png',
  data: PictureData | undefined,
  view: SheetView | undefined,
  layout: Layout | undefined,
  t: Translate,
): Promise<string> {
  if (!data) throw new Error(t('There is no picture yet.'));
  const svg = renderSheet(data, {
    width: layout?.width ?? 900,
    theme: themeOfEditor(),
    t,
    ...(layout && { height: layout.height }),
    ...(view && layout && { view: { ...view, along: layout.along.segments.map(each => each.x) } }),
  });
  return format === 'svg' ? svg : pngOf(svg, t);
}

/** The colours the editor has just now. */
export function themeOfEditor(): Theme {
  const { classList } = document.body;
  const dark =
    classList.contains('vscode-dark') ||
    (classList.contains('vscode-high-contrast') && !classList.contains('vscode-high-contrast-light'));
  const style = getComputedStyle(document.body);
  const base = themes[dark ? 'dark' : 'light'];
  const colours = Object.fromEntries(
    Object.entries(base.colours).map(([name, colour]) => [name, style.getPropertyValue(name).trim() || colour]),
  );
  return { kind: dark ? 'dark' : 'light', colours };
}

/** Twice the size, so that it prints well. */
async function pngOf(svg: string, t: Translate): Promise<string> {
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = 2 * image.width;
  canvas.height = 2 * image.height;
  const context = canvas.getContext('2d');
  if (!context) throw new Error(t('This editor has no canvas to draw on.'));
  context.scale(2, 2);
  context.drawImage(image, 0, 0);
  return canvas.toDataURL('image/png');
}
