/**
 * The search for a schedule goes on in the background, in slices, while nothing else is to be done. What is shown is
 * provisional until then, and says so; when a search is done, or its budget used up, everyone who showed it is told.
 */
import { ImprovedNotification } from '../protocol.ts';
import type { Feature } from '../session.ts';

export const schedule: Feature = {
  capabilities: () => ({}),
  register: session => {
    const { project, environment } = session;
    /** Milliseconds that are left of the budget, by file. */
    const waiting = new Map<string, number>();
    let running = false;
    let cancel: (() => void) | undefined;

    const run = async () => {
      cancel = undefined;
      running = true;
      try {
        for (const [key, left] of waiting) {
          await environment.breathe();
          if (session.ended) return;
          const began = environment.clock();
          const more = project.isKnown(key)
            ? project.improve(key, () => environment.clock() - began > SLICE, left <= SLICE)
            : undefined;
          if (more === true && left > SLICE) waiting.set(key, left - SLICE);
          else {
            waiting.delete(key);
            if (more !== undefined) tell(key);
          }
        }
      } finally {
        running = false;
        if (waiting.size > 0 && !session.ended) cancel = environment.later(() => void run(), PAUSE);
      }
    };
    const tell = (key: string) => {
      const address = project.addressOf(key);
      for (const listen of session.onImproved) listen(address);
      if (session.client.experimental?.broomline === undefined) return;
      const version = project.bufferOf(address)?.version ?? null;
      void session.connection
        .sendNotification(ImprovedNotification.method, { uri: address, version })
        .catch(() => undefined);
    };
    project.onProvisional = key => {
      if (!project.isOpen(key)) return;
      waiting.set(key, session.settings.budgets.schedule * 1000);
      if (running) return;
      cancel?.();
      cancel = environment.later(() => void run(), QUIET);
    };
  },
};

/** Milliseconds of one slice. */
const SLICE = 8;
/** Milliseconds between slices, so that whoever asks comes first. */
const PAUSE = 5;
/** Milliseconds without a change before the search goes on: whoever types is not held up by it. */
const QUIET = 60;
