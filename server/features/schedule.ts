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

    const run = async () => {
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
        if (waiting.size > 0 && !session.ended) environment.later(() => void run(), PAUSE);
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
      if (!running) environment.later(() => void run(), PAUSE);
    };
  },
};

/** Milliseconds of one slice. */
const SLICE = 15;
/** Milliseconds between slices, so that whoever types or asks comes first. */
const PAUSE = 5;
