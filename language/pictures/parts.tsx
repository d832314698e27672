/** Small parts that all figures are made of: text, signs, hatches. */
import type { ComponentChildren } from 'preact';
import type { Anchor } from './text.ts';

/**
 * Layers of a figure: marks lie below what moves with the time, words above it. In a preview each is a picture of its own,
 * so that moving something paints neither again.
 */
export type Layer = 'marks' | 'words';

export interface TextProps {
  readonly x: number;
  readonly y: number;
  readonly children: string | readonly string[];
  readonly anchor?: Anchor;
  readonly size?: 11 | 12 | 13 | 15;
  readonly bold?: boolean;
  /** `quiet`, `bad`, `warn`, `chip`, `on`. */
  readonly tone?: string;
  readonly halo?: boolean;
}

/** A line of text; y is its baseline. */
export function T({ x, y, children, anchor = 'start', size = 11, bold, tone, halo }: TextProps) {
  const name = [size !== 11 && `t${size}`, bold && 'b', tone, halo && 'halo'].filter(Boolean).join(' ');
  return (
    <text
      x={r(x)}
      y={r(y)}
      {...(anchor !== 'start' && { 'text-anchor': anchor })}
      {...(name !== '' && { class: name })}
    >
      {children}
    </text>
  );
}

/** To a hundredth of a pixel. */
export function r(value: number): number {
  return Math.round(value * 100) / 100 + 0;
}

export type SignKind = 'kept' | 'over' | 'under' | 'error' | 'warning' | 'waived' | 'hint';

/** A sign about its middle: each has a shape of its own, so that none hangs on colour. */
export function Sign({ kind, x, y, size = 12 }: { kind: SignKind; x: number; y: number; size?: number }) {
  const h = size / 2;
  const at = `translate(${r(x)} ${r(y)})`;
  switch (kind) {
    case 'kept':
      return (
        <g transform={at}>
          <path class="sign-line" d={`M${-0.6 * h} 0.5 L${-0.1 * h} ${0.5 * h} L${0.7 * h} ${-0.55 * h}`} />
        </g>
      );
    case 'warning': {
      return (
        <g transform={at}>
          <path class="sign-warn" d={`M0 ${-h} L${h} ${0.85 * h} L${-h} ${0.85 * h} Z`} />
          <path class="sign-cut" d={`M0 ${-0.25 * h} V${0.25 * h} M0 ${0.58 * h} V${0.6 * h}`} />
        </g>
      );
    }
    case 'waived':
    case 'hint':
      return (
        <g transform={at}>
          <path class="sign-line" d={`M0 ${-0.9 * h} L${0.9 * h} 0 L0 ${0.9 * h} L${-0.9 * h} 0 Z`} />
          {kind === 'waived' && <path class="sign-line" d={`M${-0.4 * h} 0 H${0.4 * h}`} />}
        </g>
      );
    default: {
      // An octagon with a cross; with a bar where a value is under its limit.
      const a = 0.41 * h;
      const corners = [
        [-a, -h],
        [a, -h],
        [h, -a],
        [h, a],
        [a, h],
        [-a, h],
        [-h, a],
        [-h, -a],
      ].map(([u, v]) => `${r(u!)} ${r(v!)}`);
      const cut =
        kind === 'under'
          ? `M${-0.5 * h} 0 H${0.5 * h}`
          : `M${-0.4 * h} ${-0.4 * h} L${0.4 * h} ${0.4 * h} M${0.4 * h} ${-0.4 * h} L${-0.4 * h} ${0.4 * h}`;
      return (
        <g transform={at}>
          <path class="sign-bad" d={`M${corners.join(' L')} Z`} />
          <path class="sign-cut" d={cut} />
        </g>
      );
    }
  }
}

/** A ring with a cross: the place of an extreme; a double ring where it misses its limit. */
export function Ring({ x, y, bad }: { x: number; y: number; bad?: boolean }) {
  const d = 'M-8 0 H8 M0 -8 V8 M5.5 0 A5.5 5.5 0 1 1 -5.5 0 A5.5 5.5 0 1 1 5.5 0';
  return (
    <g transform={`translate(${r(x)} ${r(y)})`}>
      <path class="ring-halo" d={d} />
      <path class={bad ? 'ring bad' : 'ring'} d={bad ? `${d} M9 0 A9 9 0 1 1 -9 0 A9 9 0 1 1 9 0` : d} />
    </g>
  );
}

/** Hatches of a sheet. `id` keeps the names of two sheets in one document apart. */
export function Hatches({ id }: { id: string }) {
  return (
    <>
      <pattern id={`${id}-w1`} width="9" height="9" patternUnits="userSpaceOnUse">
        <circle class="rubber-ink" cx="2" cy="2" r="0.9" />
        <circle class="rubber-ink" cx="6.5" cy="6.5" r="0.9" />
      </pattern>
      <pattern id={`${id}-w2`} width="13" height="9" patternUnits="userSpaceOnUse">
        <path class="rubber-line" d="M1 2.5 H6 M7.5 7 H12.5" />
      </pattern>
      <pattern id={`${id}-w3`} width="9" height="6" patternUnits="userSpaceOnUse">
        <path class="rubber-line" d="M0.5 1.5 H6 M5 4.5 H9 M0 4.5 H1.5" />
      </pattern>
      <pattern id={`${id}-w4`} width="6" height="4" patternUnits="userSpaceOnUse">
        <path class="rubber-line" d="M0 1 H4.5 M3 3 H6 M0 3 H1.5" />
      </pattern>
      <pattern id={`${id}-over`} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path class="miss-line" d="M1 0 V7" />
      </pattern>
      <pattern id={`${id}-under`} width="8" height="6" patternUnits="userSpaceOnUse">
        <path class="miss-line" d="M1 3 H6" />
      </pattern>
      <pattern id={`${id}-reserve`} width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
        <path class="reserve-line" d="M1 0 V9" />
      </pattern>
      <pattern id={`${id}-water`} width="5" height="5" patternUnits="userSpaceOnUse">
        <path class="stripe-water" d="M0 2.5 H5" />
      </pattern>
      <pattern id={`${id}-jet`} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path class="stripe-jet" d="M2.5 0 V5" />
      </pattern>
      <pattern id={`${id}-product`} width="4" height="4" patternUnits="userSpaceOnUse">
        <circle class="dot-product" cx="2" cy="2" r="0.8" />
      </pattern>
      <pattern id={`${id}-upright`} width="5" height="5" patternUnits="userSpaceOnUse">
        <path class="stripe-ink" d="M2.5 0 V5" />
      </pattern>
      <pattern id={`${id}-dots`} width="5" height="5" patternUnits="userSpaceOnUse">
        <circle class="dot-ink" cx="1.5" cy="1.5" r="0.7" />
        <circle class="dot-ink" cx="4" cy="4" r="0.7" />
      </pattern>
    </>
  );
}

/** A group that leads to the text: a click on it reveals its place. */
export function To({ thing, label, children }: { thing: string; label?: string; children: ComponentChildren }) {
  return (
    <g data-thing={thing}>
      {label && <title>{label}</title>}
      {children}
    </g>
  );
}

/** A label on a plate that keeps the lines below it quiet. `ground` is what the plate lies on, where that is not paper. */
export function Plated({
  x,
  y,
  w,
  ground,
  ...text
}: TextProps & { readonly w: number; readonly ground?: 'box' | 'band' }) {
  const size = text.size ?? 11;
  const room = ground === undefined ? 3 : 1;
  return (
    <>
      <rect
        class={ground === undefined ? 'plate' : `plate on-${ground}`}
        x={r(x - w / 2 - room)}
        y={r(y - size * 0.85)}
        width={r(w + 2 * room)}
        height={size + 3}
        rx="2"
      />
      <T x={x} y={y} anchor="middle" {...text} />
    </>
  );
}
