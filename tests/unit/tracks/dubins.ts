/**
 * Shortest path of bounded curvature between two poses, found by search: for each of the six words the angle of the
 * first arc is scanned and refined until the rest fits. Slow, simple, and shares no formula with language/tracks.
 */

/** Length of the shortest path from (0, 0) heading +x to (x, y) heading `heading`, turning radius R, and its word. */
export function shortestPath(x: number, y: number, heading: number, R: number): { length: number; word: string } {
  let best = { length: Number.POSITIVE_INFINITY, word: '' };
  for (const word of ['LSL', 'RSR', 'LSR', 'RSL', 'LRL', 'RLR']) {
    const length = lengthOfWord(word, x, y, heading, R);
    if (length < best.length) best = { length, word };
  }
  return best;
}

const full = 2 * Math.PI;

function lengthOfWord(word: string, x: number, y: number, heading: number, R: number): number {
  const first = word[0] === 'L' ? 1 : -1;
  const last = word[2] === 'L' ? 1 : -1;
  // Centre of the last circle: to the left of the pose for a left turn.
  const ex = x - last * R * Math.sin(heading);
  const ey = y + last * R * Math.cos(heading);
  const residual = (angle: number): number => {
    const [px, py, theta] = afterArc(angle, first, R);
    if (word[1] === 'S') return Math.cos(theta) * (ey - py) - Math.sin(theta) * (ex - px) - last * R;
    const cx = px + first * R * Math.sin(theta);
    const cy = py - first * R * Math.cos(theta);
    return Math.hypot(ex - cx, ey - cy) - 2 * R;
  };
  let best = Number.POSITIVE_INFINITY;
  const steps = 720;
  for (let i = 0; i < steps; i++) {
    let a = (i / steps) * full - 1e-9;
    let b = ((i + 1) / steps) * full + 1e-9;
    if (residual(a) * residual(b) > 0) continue;
    for (let k = 0; k < 60; k++) {
      const mid = (a + b) / 2;
      if (residual(a) * residual(mid) <= 0) b = mid;
      else a = mid;
    }
    best = Math.min(best, rest((a + b) / 2, word, first, last, ex, ey, heading, R));
  }
  return best;
}

/** Total length once the first arc is known. */
function rest(
  angle: number,
  word: string,
  first: number,
  last: number,
  ex: number,
  ey: number,
  heading: number,
  R: number,
): number {
  const [px, py, theta] = afterArc(angle, first, R);
  if (word[1] === 'S') {
    const straight = Math.cos(theta) * (ex - px) + Math.sin(theta) * (ey - py);
    return straight < -1e-7 ? Number.POSITIVE_INFINITY : R * angle + straight + R * positive(last * (heading - theta));
  }
  const cx = px + first * R * Math.sin(theta);
  const cy = py - first * R * Math.cos(theta);
  // Heading where the middle circle meets the last one.
  const radial = Math.atan2(ey - cy, ex - cx);
  const there = radial - (first * Math.PI) / 2;
  return R * (angle + positive(-first * (there - theta)) + positive(last * (heading - there)));
}

function afterArc(angle: number, sense: number, R: number): [number, number, number] {
  const theta = sense * angle;
  return [R * Math.sin(angle), sense * R * (1 - Math.cos(angle)), theta];
}

/** An angle in [0, 2π); a hair below a full turn is rounding and counts as none. */
function positive(angle: number): number {
  const a = ((angle % full) + full) % full;
  return a > full - 1e-6 ? 0 : a;
}
