import { check } from '../check.ts';
import { fullPlans, refOf } from '../help.ts';

export default check({
  code: 'lights-unprotected',
  title: 'Lights lie in the runway, but nothing says how they are spared',
  severity: 'warning',
  why: 'Brooms, jets and products harm inset lights and their seals, and a lens that was scratched or filmed over is found only at the reopening inspection. Specifications ask for the protection of lights and sensors.',
  source: 'federal-solicitation',
  bad: ['    crossfall: 1.5 %', '    crossfall: 1.5 %\n    touchdown-lights: yes'],
  good: [
    '    crossfall: 1.5 %',
    '    crossfall: 1.5 %\n    touchdown-lights: yes',
    'trial Patch {',
    'exclusion Lamps {\n    on:        Main from "04"\n    what:      lights\n    treatment: hand-clean\n}\n\ntrial Patch {',
  ],
  *find({ job }) {
    const works = new Set([...fullPlans(job)].map(plan => plan.runway?.id));
    for (const runway of job.blocks.runways) {
      const lights = [runway.centrelineLights, runway.touchdownLights].find(flag => flag?.value);
      const spared = job.blocks.exclusions.some(
        ({ on, what }) => on?.value.runway.id === runway.id && what?.value === 'lights',
      );
      if (!lights || spared || !works.has(runway.id)) continue;
      yield {
        message: `Lights lie in runway ${runway.name}, but no exclusion says how they are spared. Add an \`exclusion\` with \`what: lights\` and its treatment: lift, avoid, hand-clean or protect.`,
        place: lights.place,
        about: refOf(runway),
      };
    }
  },
});
