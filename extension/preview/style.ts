/** The preview's style sheet: that of the pictures, and what stands round them. Colours are the editor's own. */
import { liveStyle } from '../../language/pictures/style.ts';

export function previewStyle(): string {
  return liveStyle() + own;
}

const own = `
html, body { margin: 0; padding: 0; }
body { background: var(--bl-paper); color: var(--bl-ink); font-family: var(--vscode-font-family, 'DejaVu Sans', sans-serif); font-size: 12px; line-height: 1.35; }
button, input, select { font: inherit; color: inherit; }
.visually-hidden { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
/* Clicks go through what lies over the deposits and bays without being a thing of its own. */
.wet, .trail, .ring, .ring-halo, .halo { pointer-events: none; }
:focus-visible { outline: 2px solid var(--bl-focus); outline-offset: 1px; }

.head { box-sizing: border-box; padding: 8px 12px 6px; border-bottom: 1px solid var(--bl-rule); }
.verdict { display: grid; grid-template-columns: 22px 1fr auto; column-gap: 6px; align-items: start; }
.verdict h1 { margin: 0; font-size: 15px; line-height: 20px; font-weight: 700; display: -webkit-box; -webkit-box-orient: vertical; -webkit-line-clamp: 2; overflow: hidden; }
.verdict .sign { padding-top: 2px; }
.verdict .detail { grid-column: 2 / -1; min-height: 16px; margin: 2px 0 0; display: -webkit-box; -webkit-box-orient: vertical; -webkit-line-clamp: 3; overflow: hidden; }
.counts { display: flex; gap: 10px; padding-top: 1px; white-space: nowrap; }
.counts button, .plain { text-align: left; background: none; border: none; padding: 0 2px; cursor: pointer; display: inline-flex; gap: 4px; align-items: center; }
.counts button:hover, .plain:hover { text-decoration: underline; }
.cures { grid-column: 2 / -1; display: flex; flex-wrap: wrap; gap: 6px; align-items: center; min-height: 24px; margin-top: 4px; }
.head .cures { max-height: 54px; overflow: hidden; padding: 2px; margin: 2px -2px -2px; }
.cure { background: var(--bl-faint); border: 1px solid var(--bl-border); border-radius: 2px; padding: 2px 8px; cursor: pointer; text-align: left; }
.cure:hover { background: var(--bl-rule); }
.facts { display: flex; gap: 4px 10px; margin: 6px 0 0; padding: 6px 0 0; border-top: 1px solid var(--bl-rule); list-style: none; }
.fact { flex: 1 1 auto; max-width: 200px; min-width: 0; white-space: nowrap; }
.fact .label, .fact .below { color: var(--bl-quiet); font-size: 11px; }
.fact .amount { white-space: nowrap; }
.fact .value { font-size: 15px; font-weight: 700; }
.fact.missed .value { color: var(--bl-error); }
.fact button.plain { display: block; text-align: left; padding: 0; }
.fact .sign { display: inline; margin: 0 4px 0 0; vertical-align: -1px; }
.fact svg:not(.sign) { display: block; margin: 1px 0; max-width: 100%; }
.fact .before { font-size: 11px; }
.gauge-track { fill: var(--bl-tint1); } .gauge-value { fill: var(--bl-product); } .gauge-miss { fill: none; stroke: var(--bl-error); stroke-width: 1.5; } .gauge-tick { stroke: var(--bl-ink); stroke-width: 1.5; }

.body { display: block; }
.figures { position: relative; overflow-x: auto; overflow-y: hidden; }
.sheet { position: relative; touch-action: none; user-select: none; }
.sheet svg { display: block; will-change: transform; }
.sheet .layer { position: absolute; top: 0; left: 0; background: none; pointer-events: none; }
.layer [data-thing], .layer [data-act], .layer [data-handle], .layer [data-refused] { pointer-events: auto; }
.figures.panned { cursor: grab; }
.stale .figures, .stale .facts { filter: grayscale(1); opacity: 0.5; }
.figures text, .figures .plate, .now, .guide, .rule, .wet, .trail, .leader, .back, .due, .heavy { pointer-events: none; }
[data-thing], [data-act] { cursor: pointer; }
[data-thing] text, [data-act] text { pointer-events: auto; }
[data-thing]:hover > .pass { stroke-width: 1.8; }
.tools { position: absolute; display: flex; gap: 3px; }
.handle-group { cursor: ew-resize; } .handle-group.y { cursor: ns-resize; } .handle-group.time { cursor: ns-resize; }
.handle-group.refused { cursor: not-allowed; }
.handle-group:focus-visible .handle, .handle-group.dragged .handle { stroke: var(--bl-focus); stroke-width: 2.5; }
.handle-group:focus-visible { outline: none; }
.handle-group.side { opacity: 0; } .figures:hover .handle-group.side { opacity: 1; } .handle-group.side:focus-visible, .handle-group.side.dragged { opacity: 1; }
@media (forced-colors: active) { .handle-group.side { opacity: 1; } }

.control-bar { position: sticky; bottom: 0; background: var(--bl-paper); border-top: 1px solid var(--bl-rule); padding: 5px 12px 4px; }
.controls { display: flex; align-items: center; gap: 7px; flex-wrap: wrap; }
.controls select { background: var(--bl-faint); border: 1px solid var(--bl-border); border-radius: 2px; padding: 1px 2px; font-size: 11px; max-width: 96px; }
.group button { font-size: 11px; }
.controls input[type=range] { flex: 1 1 120px; min-width: 90px; accent-color: var(--bl-focus); height: 18px; margin: 0; }
.controls .clock { font-size: 15px; font-weight: 700; min-width: 46px; }
.group { display: inline-flex; border: 1px solid var(--bl-border); border-radius: 2px; overflow: hidden; }
.group button { background: var(--bl-faint); border: none; padding: 2px 6px; cursor: pointer; min-width: 24px; }
.group button[aria-pressed=true] { background: var(--bl-ink); color: var(--bl-paper); }
.play { background: var(--bl-faint); border: 1px solid var(--bl-border); border-radius: 2px; width: 28px; height: 24px; padding: 0; cursor: pointer; }
.play svg { display: block; margin: auto; } .play path { fill: var(--bl-ink); }
.says { min-height: 16px; margin: 3px 0 0; white-space: nowrap; overflow: hidden; text-overflow: ellipsis; font-size: 11px; }

.lists { padding: 8px 12px 14px; display: grid; gap: 10px; }
/* A wide table scrolls in its own place. */
.lists > * { min-width: 0; }
.lists h2 { font-size: 13px; margin: 6px 0 2px; }
.findings { list-style: none; margin: 0; padding: 0; }
.findings li { display: grid; grid-template-columns: 18px 1fr; column-gap: 6px; padding: 5px 0; border-bottom: 1px solid var(--bl-rule); }
.findings .text { text-align: left; display: inline; }
.findings .about { color: var(--bl-quiet); font-size: 11px; grid-column: 2; }
.findings .cures { grid-column: 2; min-height: 0; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; }
th, td { text-align: left; padding: 1px 14px 1px 0; vertical-align: top; font-weight: 400; }
th { color: var(--bl-quiet); font-size: 11px; white-space: nowrap; }
td.number { text-align: right; white-space: nowrap; }
details > summary { cursor: pointer; font-weight: 700; padding: 2px 0; }
.empty { padding: 16px 12px; } .empty ol { margin: 6px 0 0; padding-left: 22px; } .empty li { padding: 3px 0; }

@media (min-width: 1600px) {
  .body { display: grid; grid-template-columns: 1fr 340px; }
  .lists { border-left: 1px solid var(--bl-rule); align-content: start; overflow-y: auto; }
}
@media (max-width: 760px) { .across { display: none; } }
@media (max-width: 615px) {
  /* Each as wide as it is; what has to give way wraps. */
  .facts { gap: 4px 8px; }
  .fact { white-space: normal; line-height: 1.2; }
  .fact .value { font-size: 13px; }
  .controls { gap: 5px; }
  .controls input[type=range] { flex-basis: 60px; min-width: 60px; }
  .controls select { max-width: 86px; }
  .group button { padding: 2px 4px; min-width: 20px; }
}
/* Narrower than the usual sheet: all is arranged in what there is. */
@media (max-width: 559px) {
  .counts { grid-column: 2 / -1; flex-wrap: wrap; gap: 2px 10px; }
  .facts { display: grid; grid-template-columns: repeat(auto-fit, minmax(84px, 1fr)); }
  .head .cures { max-height: none; }
  .lists { overflow-wrap: anywhere; }
  .controls select { max-width: 96px; }
}
/* Narrower than the figures can be read: they are scrolled sideways. */
@media (max-width: 419px) {
  .sheet { touch-action: pan-x pan-y; }
  .sheet [data-handle] { touch-action: none; }
}
`;
