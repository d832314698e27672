/** What is done between two keys, so that no key has to wait for it. */
import type { Session } from './session.ts';

/** So long after a key, ms, its findings are mostly out, and the next key of one who types fast is not there yet. */
const PAUSE = 40;

/** Lets the platform tidy up when nobody has typed for a moment. */
export function tidyBetweenKeys({ environment, onChange }: Session): void {
  const { tidy, later } = environment;
  if (!tidy) return;
  let cancel: (() => void) | undefined;
  onChange.push(() => {
    cancel?.();
    cancel = later(tidy, PAUSE);
  });
}
