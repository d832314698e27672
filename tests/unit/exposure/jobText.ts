/** Texts of small chemical jobs for the tests of tracks and exposure, and the typed job of a text. Invented places and plant. */
import { URI } from 'langium';
import { createWorkspace } from '../../../language/grammar/services.ts';
import { assembleJob } from '../../../language/job/assemble.ts';
import type { Job } from '../../../language/job/job.ts';
import { nameRules } from '../../../language/vocabulary/names.ts';
import { memory } from '../grammar/helpers.ts';

/** Lines of the blocks that a test changes; everything else stays the same. */
export interface Draft {
  readonly stations?: string;
  readonly sprayer?: string;
  readonly tank?: string;
  readonly spray?: string;
  readonly broom?: string;
  readonly soak?: string;
  readonly agitate?: string;
  readonly rinse?: string;
  readonly before?: string;
  readonly after?: string;
  readonly work?: string;
  readonly end?: string;
  readonly more?: string;
}

export function jobText(draft: Draft = {}): string {
  return `broomline 1

job Test {
  title: "Test"
}

airport Tern {
  operator: "Tern"
  water-point Hydrant {
    distance: 600 m
    flow: 1200 L/min
  }
  emptying-point Sump {
    distance: 700 m
    takes: 10 min
  }
}

runway Main {
  length: 2600 m
  width: 60 m
  pavement: grooved asphalt
  end "04" {
  }
  end "22" {
  }
}

deposit Zone {
  on: Main from "${draft.end ?? '04'}"
  stations: table chainage m, left m, right m
${draft.stations ?? '    200 8 8\n    500 8 8'}
  build-up: medium
}

product Detergent {
  safety-data-sheet: "s"
  dilution: 1 part product to 4 parts water
  dwell-least: 10 min
  dwell-most: 20 h
}

sprayer Boom {
  width: 6 m
  tank: ${draft.tank ?? '4000 L'}
  ${draft.sprayer ?? ''}
}

broom Broom1 {
  width: 2.4 m
  angle: 30 °
  bristles: polypropylene
  ${draft.broom ?? ''}
}

broom Broom2 like Broom1

water-truck Tanker {
  width: 4 m
  tank: 12000 L
}

sweeper Sweeper1 {
  width: 2.6 m
  picks-up-by: regenerative air
  bristles: polypropylene
}

method Full {
  family: chemical and brooms
${draft.before ?? ''}
  step Spray {
    does: apply
    by: Boom
    ${draft.spray ?? 'speed: 8 km/h\n    rate: 0.35 L/m2 of mix'}
  }
  step Soak {
    does: soak
    ${draft.soak ?? 'at-least: 30 min'}
  }
  step Agitate {
    does: agitate
    by: Broom1
    ${draft.agitate ?? 'speed: 6 km/h'}
  }
  step Rinse {
    does: rinse
    by: Tanker
    with: Broom1
    ${draft.rinse ?? 'speed: 6 km/h\n    rate: 3 L/m2 of water'}
  }
${draft.after ?? ''}
}

work North {
  removes: Zone
  method: Full
  product: Detergent
  ${draft.work ?? ''}
}

${draft.more ?? ''}
`;
}

/** The typed job of a text. */
export async function jobOf(text: string): Promise<Job> {
  const { provider } = memory({ '/w/job.broom': text });
  const workspace = createWorkspace(provider, [URI.file('/w')], {
    topLevelKinds: nameRules.topLevelKinds,
    rules: nameRules,
  });
  const [document] = await workspace.open([URI.file('/w/job.broom')]);
  const job = assembleJob({ main: document! });
  const wrong = job.problems.map(each => each.message);
  if (wrong.length > 0) throw new Error(`the text of the test is wrong: ${wrong.join(' ')}`);
  return job;
}
