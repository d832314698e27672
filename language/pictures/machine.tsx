/** The shapes of machines: each kind has its own, with its front in the direction of travel. */
import type { MachinePicture } from './data.ts';
import { r } from './parts.tsx';

export function Machine({ kind, x, y, dir }: { kind: MachinePicture['kind']; x: number; y: number; dir: 1 | -1 }) {
  return (
    <path
      class={`machine m-${kind}`}
      d={shapes[kind] ?? shapes.sweeper}
      transform={`translate(${r(x)} ${r(y)})${dir < 0 ? ' scale(-1 1)' : ''}`}
    />
  );
}

const shapes: Readonly<Record<MachinePicture['kind'], string>> = {
  sprayer: 'M6 0 L-5 -6 V6 Z',
  broom: 'M-3.5 -6.5 H0 L3.5 6.5 H0 Z',
  'water-truck': 'M-7 -4 H3 L7 -2 V4 H-7 Z',
  sweeper: 'M5 0 A5 5 0 1 1 -5 0 A5 5 0 1 1 5 0',
  magnet: 'M-6 -2.5 H6 V2.5 H-6 Z',
  jet: 'M6.5 0 L0 -6 L-6.5 0 L0 6 Z',
};
