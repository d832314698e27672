/** A picture by itself: the whole sheet as SVG text, with the colours of a theme, for files and reports. */
import { renderToString } from 'preact-render-to-string';
import type { PictureData } from './data.ts';
import { firstView, layoutOf, leastWidth, pad, type SheetView } from './layout.ts';
import { r, Sign, T } from './parts.tsx';
import { Sheet } from './sheet.tsx';
import { exportStyle, type Theme, themes } from './style.ts';
import { cut, textWidth, wrapped } from './text.ts';
import { english, type Translate, tell } from './words.ts';

export interface RenderOptions {
  readonly width: number;
  /** Height of the figures, px; as high as they want to be by default. */
  readonly height?: number;
  readonly theme?: 'light' | 'dark' | Theme;
  /** What is shown; by default what a preview shows first. */
  readonly view?: SheetView;
  /** Words of the reader's language; English by default. */
  readonly t?: Translate;
}

/** The sheet of a job as a standalone SVG document. A job without a picture gives a sheet that says what to write next. */
export function renderSheet(data: PictureData, options: RenderOptions): string {
  const width = Math.max(leastWidth, options.width);
  const theme = typeof options.theme === 'object' ? options.theme : themes[options.theme ?? 'light'];
  const drawn = data.runways.length > 0 && data.nights.length > 0 && data.bays.length > 0;
  const { t = english } = options;
  const head = headOf(data, width, t);
  const view = options.view ?? (drawn ? firstView(data) : undefined);
  const layout = view && drawn ? layoutOf(data, view, width, options.height ?? Math.max(560, width * 0.55)) : undefined;
  const height = head.height + (layout?.height ?? 24 * data.missing.length) + 8;
  const drawing = renderToString(
    <svg
      xmlns="http://www.w3.org/2000/svg"
      class="bl-sheet"
      width={r(width)}
      height={r(height)}
      viewBox={`0 0 ${r(width)} ${r(height)}`}
      role="img"
      aria-label={data.title || data.job}
    >
      <style>{exportStyle(theme)}</style>
      <rect class="paper" width="100%" height="100%" />
      {head.drawn}
      {layout && view ? (
        <g transform={`translate(0 ${r(head.height)})`}>
          <Sheet data={data} view={view} layout={layout} id="bl" t={t} />
        </g>
      ) : (
        data.missing.map((line, i) => (
          <T x={pad} y={head.height + 14 + 20 * i} size={12}>
            {cut(line, width - 2 * pad, 12)}
          </T>
        ))
      )}
    </svg>,
  );
  // An empty path has no value to its attribute in HTML; XML wants one. It draws nothing: out with it.
  return drawing.replace(/<path[^<>]* d(?: [^<>]*)?><\/path>/g, '');
}

/** Title, verdict and its numbers, above the figures. */
function headOf({ title, verdict }: PictureData, width: number, t: Translate) {
  const wide = width - 2 * pad - 24;
  const headline = wrapped(verdict.headline, wide, 15, true, 2);
  const detail = wrapped(verdict.detail, wide, 12, false, 2);
  const sign =
    verdict.state === 'fails'
      ? 'error'
      : verdict.state === 'warned'
        ? 'warning'
        : verdict.state === 'works'
          ? 'kept'
          : 'hint';
  const top = title ? 20 : 4;
  const lines = [
    ...headline.map(text => ({ text, size: 15 as const, bold: true })),
    ...detail.map(text => ({ text, size: 12 as const, bold: false })),
  ];
  const below = top + 8 + lines.reduce((sum, line) => sum + line.size + 5, 0) + 6;
  const { facts } = verdict;
  const perRow = Math.max(1, Math.min(facts.length, Math.floor((width - 2 * pad) / 150)));
  const factW = (width - 2 * pad) / perRow;
  const rows = Math.ceil(facts.length / perRow);
  let y = top + 8;
  return {
    height: below + rows * 64 + 10,
    drawn: (
      <g>
        {title && (
          <T x={pad} y={15} size={12} tone="quiet">
            {cut(title, width - 2 * pad, 12)}
          </T>
        )}
        <Sign kind={sign} x={pad + 8} y={top + 16} size={16} />
        {lines.map(({ text, size, bold }) => {
          y += size + 5;
          return (
            <T x={pad + 24} y={y - 4} size={size} bold={bold}>
              {text}
            </T>
          );
        })}
        {facts.map((fact, i) => {
          const x = pad + (i % perRow) * factW;
          const at = below + Math.floor(i / perRow) * 64;
          const value = cut(fact.value, factW - 30, 15, true);
          return (
            <>
              <T x={x} y={at + 11} tone="quiet">
                {cut(tell(t, fact.label), factW - 10)}
              </T>
              <T x={x} y={at + 28} size={15} bold {...(fact.sign && { tone: 'bad' })}>
                {value}
              </T>
              <T x={x + textWidth(value, 15, true) + 5} y={at + 28}>
                {cut(fact.unit, factW - textWidth(value, 15, true) - 12)}
              </T>
              {wrapped(fact.below, factW - 10, 11, false, 2).map((line, k) => (
                <T x={x} y={at + 43 + 13 * k} tone="quiet">
                  {line}
                </T>
              ))}
            </>
          );
        })}
        <path class="rule" d={`M0 ${r(below + rows * 64 - 2)}H${r(width)}`} />
      </g>
    ),
  };
}
