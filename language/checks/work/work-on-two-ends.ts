import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'work-on-two-ends',
  title: 'A work removes deposits of different runways or ends',
  severity: 'error',
  why: 'A work is done in one frame: chainage counts from one landing threshold, and "outward" and "against landing" mean one direction. Deposits of the other end, or of another runway, need a work of their own, with the same method.',
  source: 'tool-policy',
  bad: [
    'deposit NorthTouchdown {',
    `deposit SouthTouchdown {
    on:       Main from "22"
    stations: table chainage m, left m, right m
        150   9    9
        600   9    9
    build-up: light
}

deposit NorthTouchdown {`,
    '    removes:    NorthTouchdown',
    '    removes:    NorthTouchdown, SouthTouchdown',
  ],
  alongside: ['stands-too-long', 'job-does-not-fit'],
  *find({ job }) {
    for (const { work, deposits } of job.plans) {
      const first = deposits.find(deposit => deposit.on);
      const other = deposits.find(
        ({ on }) => on && (on.value.runway.id !== first?.on?.value.runway.id || on.value.end !== first.on.value.end),
      );
      if (!first || !other || !work.removes) continue;
      const at = ({ on }: typeof first) => `${on!.value.runway.name} from "${on!.value.end}"`;
      yield {
        message: `${work.name} removes ${first.name} on ${at(first)} and ${other.name} on ${at(other)}. Give each end a work of its own; both can use the same method.`,
        place: work.removes.place,
        related: [
          { place: first.heading, message: first.name },
          { place: other.heading, message: other.name },
        ],
        about: refOf(work),
      };
    }
  },
});
