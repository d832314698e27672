import type { Plan, PlannedStep } from '../../job/job.ts';
import { advanceForContacts, broomForContacts, circuitsForContacts, cyclesForContacts } from '../../mend/levers.ts';
import { check, type Fix, type Results } from '../check.ts';
import { counted, fix, say, stepPlace, stepQuantity, stepRef, stepsOf, tried, write } from '../help.ts';
import { at, exposuresOf, setStep, trackedWorks } from '../tracked.ts';

export default check({
  code: 'contacts-short',
  title: 'Some points get fewer contacts than the method asks for',
  severity: 'error',
  why: 'Inside the deposit neighbouring circuits overlap, but along its edges only the last circuit reaches, and where the deposit widens the edge is met by fewer bands. How often each point is brushed is counted band by band. A further circuit, or a smaller advance, gives the edge what the inside gets.',
  source: 'geometry',
  bad: ['        cycles:  2', '        cycles:  2\n        contacts: >= 9'],
  good: ['        cycles:  2', '        cycles:  2\n        contacts: >= 8'],
  *find(results) {
    for (const { plan } of trackedWorks(results)) {
      const steps = stepsOf(plan, 'agitate');
      const wanted = steps.reduce((sum, { step }) => sum + (step.contacts?.value.least ?? 0), 0);
      const planned = steps[0];
      if (!planned || wanted === 0) continue;
      // What the circuits can't give anywhere is contacts-too-few's finding.
      const inside = steps.map(({ step }) => stepQuantity(results, plan, step, 'contacts') ?? 0);
      if (inside.reduce((a, b) => a + b, 0) < wanted) continue;
      const worst = exposuresOf(results, plan).toSorted(
        (a, b) => a.exposure.contacts.least.count - b.exposure.contacts.least.count,
      )[0];
      if (!worst || worst.exposure.contacts.least.count >= wanted) continue;
      const { least } = worst.exposure.contacts;
      const { step } = planned;
      const fixes = steps.length === 1 ? cures(results, plan, planned, wanted) : [];
      yield {
        message: `At ${at(results, least, worst.tracks)} ${plan.work.name}.${step.name} gives ${least.count === 0 ? 'no contact' : counted(least.count, 'contact')}, but ${wanted} are asked for: ${cause(results, plan, planned, worst, least.t)}.${fixes.length > 0 ? ' Any of the fixes cures it.' : ' Add a circuit or advance less.'}`,
        place: stepPlace(step, step.contacts),
        about: stepRef(plan, step),
        fixes,
      };
    }
  },
});

type Worst = ReturnType<typeof exposuresOf>[number];

/** Why a point gets fewer contacts than others: it lies at the edge, or between bands. */
function cause(results: Results, plan: Plan, planned: PlannedStep, { tracks }: Worst, t: number): string {
  const bands = tracks.activities
    .filter(each => each.planned === planned)
    .flatMap(each => each.machines.flatMap(machine => machine.run.passes.map(pass => pass.band)));
  const inner = Math.max(...bands.map(band => Math.min(Math.abs(band[0]), Math.abs(band[1]))));
  if (Math.abs(t) > inner - 1e-6) return 'only the last circuit reaches the edge there';
  const [swept, advance] = ['swept', 'advance'].map(name => stepQuantity(results, plan, planned.step, name) ?? 0);
  return `a swept width of ${say(results, swept!, 'length')} and an advance of ${say(results, advance!, 'length')} leave strips with fewer bands`;
}

/** The least change of each lever, as far as the job's own text can be changed. */
export function cures(results: Results, plan: Plan, planned: PlannedStep, wanted: number): readonly Fix[] {
  const { step } = planned;
  const then = (count: number): string => `: then ${counted(count, 'contact')} at least`;
  const now = stepQuantity(results, plan, step, 'advance');
  const unit = results.system === 'us' ? 'ft' : 'm';
  const grid = results.system === 'us' ? 0.3048 / 20 : 0.01;
  const { circuits, cycles, advance, broom } = tried(
    results,
    `contacts of ${step.id}`,
    [plan, wanted, now, grid],
    job => ({
      circuits: circuitsForContacts(job, plan, planned, wanted),
      cycles: cyclesForContacts(job, plan, planned, wanted),
      advance: now === undefined ? undefined : advanceForContacts(job, plan, planned, wanted, now, grid),
      broom: broomForContacts(job, plan, planned, wanted),
    }),
  );
  const written = advance && write(advance.to, unit, 'down');
  return [
    ...(circuits
      ? setStep(
          results,
          plan,
          step,
          step.extraCircuits,
          'extra-circuits',
          String(circuits.to),
          `Add ${counted(circuits.to, 'circuit')}${then(circuits.after)}`,
        )
      : []),
    ...(advance && written !== undefined
      ? setStep(results, plan, step, step.advance, 'advance', written, `Advance by ${written}${then(advance.after)}`)
      : []),
    ...(cycles
      ? setStep(
          results,
          plan,
          step,
          step.cycles,
          'cycles',
          String(cycles.to),
          `Go ${cycles.to} cycles${then(cycles.after)}`,
        )
      : []),
    ...(broom ? oneMore(results, planned, broom.to.name, then(broom.after)) : []),
  ];
}

/** A further broom behind the others: its name beside theirs in the work's own line. */
function oneMore(results: Results, planned: PlannedStep, name: string, effect: string): readonly Fix[] {
  const bound = planned.machines.at(-1);
  if (!bound || bound.place.file !== results.job.file) return [];
  const written = results.textOf(bound.place.file).slice(bound.place.start, bound.place.end);
  // The name as this file would write it: with the prefix that the broom before it has.
  const prefix = new RegExp(`((?:[\\w-]+\\.)*)${bound.machine.name}\\s*$`).exec(written)?.[1];
  if (prefix === undefined) return [];
  return fix(`Add ${name} behind the others${effect}`, [
    { place: bound.place, text: `${written.trimEnd()}, ${prefix}${name}` },
  ]);
}
