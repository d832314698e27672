import { check } from '../check.ts';
import { refOf } from '../help.ts';

export default check({
  code: 'runway-ends',
  title: 'A runway does not have two ends that fit each other',
  severity: 'error',
  why: 'A runway is named after its two ends. Their numbers are the direction in tens of degrees, so they differ by 18, and where there are parallel runways left at one end is right at the other. Chainage is counted from one of the two.',
  source: 'common-practice',
  bad: ['    end "22" {', '    end "24" {'],
  *find({ job }) {
    for (const runway of job.blocks.runways) {
      const problem = faultOf(runway.ends.map(end => end.name));
      if (problem) yield { message: problem, place: runway.ends[1]?.heading ?? runway.heading, about: refOf(runway) };
    }
  },
});

const opposite: Readonly<Record<string, string>> = { L: 'R', R: 'L', C: 'C', '': '' };

function faultOf(ends: readonly string[]): string | undefined {
  if (ends.length !== 2) {
    return `This runway has ${ends.length === 1 ? 'one end' : `${ends.length} ends`}. Write both, \`end "04"\` and \`end "22"\`, so that chainage can count from either.`;
  }
  const [a, b] = ends.map(end => /^(0[1-9]|[12][0-9]|3[0-6])([LRC]?)$/.exec(end));
  const wrong = !a ? ends[0] : !b ? ends[1] : undefined;
  if (!a || !b)
    return `"${wrong}" is no designator. Write two digits from 01 to 36, and L, R or C for parallel runways.`;
  if (Math.abs(Number(a[1]) - Number(b[1])) === 18 && opposite[a[2]!] === b[2]) return undefined;
  const number = String(((Number(a[1]) + 17) % 36) + 1).padStart(2, '0');
  return `"${ends[0]}" and "${ends[1]}" are not the two ends of one runway: opposite "${ends[0]}" lies "${number}${opposite[a[2]!]}". Correct the designator.`;
}
