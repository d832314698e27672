import { contactsWithinTolerance } from '../../exposure/exposure.ts';
import { tracksIn } from '../../exposure/fromTracks.ts';
import { check } from '../check.ts';
import { counted, say, see, stepPlace, stepRef, stepsOf } from '../help.ts';
import { at, exposuresOf, trackedWorks } from '../tracked.ts';

export default check({
  code: 'contacts-worst-case',
  title: 'Brooms that stray within their tolerance leave points short of contacts',
  severity: 'warning',
  why: 'A broom keeps its lane only so well. Where bands overlap by less than twice what the machines may stray, points can be missed by both. The contacts that are sure count each band narrowed by the tolerance.',
  source: 'geometry',
  bad: [
    '    turn-speed:    10 km/h\n}\n\nbroom Broom2 like Broom1 {\n}',
    '    turn-speed:    10 km/h\n    track-keeping: 0.6 m\n}\n\nbroom Broom2 like Broom1 {\n}',
  ],
  *find(results) {
    for (const { plan } of trackedWorks(results)) {
      const planned = stepsOf(plan, 'agitate')[0];
      if (!planned) continue;
      const { step } = planned;
      const keeping = planned.machines.flatMap(
        ({ machine }) => ('trackKeeping' in machine && machine.trackKeeping) || [],
      );
      const stray = keeping.toSorted((a, b) => b.value - a.value)[0];
      const wanted = Math.max(1, step.contacts?.value.least ?? 1);
      if (!stray || stray.value === 0) continue;
      for (const { tracks, exposure } of exposuresOf(results, plan)) {
        if (exposure.contacts.least.count < wanted) continue;
        const brushed = tracks.activities.filter(each => each.does === 'agitate').flatMap(tracksIn);
        const { contacts, uncertain } = contactsWithinTolerance(tracks.slabs, brushed, stray.value);
        if (contacts.least.count >= wanted) continue;
        const missed = uncertain > 0.5 ? ` Up to ${say(results, uncertain, 'area')} of the bay may get none.` : '';
        yield {
          message: `The brooms of ${plan.work.name}.${step.name} keep their lanes within ${say(results, stray.value, 'length', stray)}, so at ${at(results, contacts.least, tracks)} only ${counted(contacts.least.count, 'contact')} ${contacts.least.count === 1 ? 'is' : 'are'} sure, where ${wanted} ${wanted === 1 ? 'is' : 'are'} wanted.${missed} Advance less, or add a circuit.`,
          place: stepPlace(step, step.advance),
          related: see(stray, 'How well a broom keeps its lane.'),
          about: stepRef(plan, step),
          fixes: [],
        };
        break;
      }
    }
  },
});
