import { check } from '../check.ts';
import { fix, refOf } from '../help.ts';

export default check({
  code: 'deposit-not-removed',
  title: 'No work removes a deposit',
  severity: 'warning',
  why: 'A deposit that is described but that no work takes up stays on the runway, and the contractor may rightly say that it was not in the job. If it is left on purpose, waive this with the reason.',
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
  ],
  *find(results) {
    const { job } = results;
    if (job.isLibrary || job.blocks.works.length === 0) return;
    const removed = new Set(job.blocks.works.flatMap(work => work.removes?.value.map(ref => ref.id) ?? []));
    for (const deposit of job.blocks.deposits) {
      if (deposit.fromLibrary || removed.has(deposit.id)) continue;
      yield {
        message: `No work removes the deposit ${deposit.name}. Name it under \`removes:\` of a work, or remove it from the job.`,
        place: deposit.heading,
        about: refOf(deposit),
        fixes: job.blocks.works
          .filter(
            work => work.removes && work.removes.place.file === job.file && onSameEnd(work.removes.value, deposit),
          )
          .flatMap(({ name, removes }) =>
            fix(`Let ${name} remove it`, [
              { place: { ...removes!.place, start: removes!.place.end }, text: `, ${deposit.name}` },
            ]),
          ),
      };
    }

    function onSameEnd(refs: readonly { id: string }[], deposit: (typeof job.blocks.deposits)[number]): boolean {
      return job.blocks.deposits.some(
        other =>
          refs.some(ref => ref.id === other.id) &&
          other.on?.value.runway.id === deposit.on?.value.runway.id &&
          other.on?.value.end === deposit.on?.value.end,
      );
    }
  },
});
