import { plantKinds } from './plant.ts';

/**
 * Names of computed quantities that an author can use after a dot, by the kind of block, with what they are. Completion,
 * hover and 'did you mean' read this; a test holds it against what the quantities stage really computes.
 */
export const computedWords: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  deposit: { area: 'area of the deposit', length: 'length along the runway', widest: 'greatest width' },
  work: {
    area: 'area of the work, nothing counted twice',
    length: 'length under deposits',
    rate: 'rate of mix',
    mix: 'mix by area',
    product: 'product, undiluted',
    dilutionWater: 'water to dilute it with',
    loads: 'tank loads of mix',
    water: 'water of all uses',
    runoff: 'liquid to collect, at most',
    bays: 'number of bays',
    bayLength: 'length of the longest bay',
    time: 'time on the runway, bays one after another',
    wetGap: 'longest time without wetting until the last agitation',
    residence: 'longest time from first product to last rinse',
    start: 'start on the runway, after the opening of the first closure',
    end: 'end on the runway, after the opening of the first closure',
  },
  job: {
    closures: 'closures that the schedule takes',
    'recall.peak': 'longest time in which the runway can be cleared when it is called back',
    onTime: 'share of runs in which every closure is handed back on time',
    machineHours: 'hours of plant on site',
    crewHours: 'hours of people',
    'cost.plant': 'cost of plant',
    'cost.crew': 'cost of crews',
    'cost.closures': 'cost of the closures',
  },
  closure: {
    used: 'closures that the schedule uses',
    clear: 'runway clear and inspected, after the opening, in the fullest closure',
    margin: 'time between clear and hand-back in the fullest closure',
  },
  crew: {
    duty: 'time on duty in all closures',
    hours: 'hours of all people',
    cost: 'cost of these hours',
  },
  ...Object.fromEntries(
    plantKinds.map(kind => [
      kind,
      { hours: 'hours on site, from the opening of each closure to its last activity', cost: 'cost of these hours' },
    ]),
  ),
  step: {
    time: 'time in all bays, with turns and trips',
    drivingTime: 'time on the straights alone',
    passes: 'passes of all machines in all bays',
    turns: 'turns of all machines in all bays',
    turning: 'length of the turns',
    distance: 'way of all machines',
    trips: 'trips to fill or empty',
    efficiency: 'field efficiency',
    circuits: 'circuits round the centreline',
    lanes: 'lanes across the runway',
    swept: 'swept width',
    advance: 'how much wider each circuit is',
    overlap: 'overlap of neighbouring circuits',
    flow: 'flow of the boom or bar',
    laid: 'mix that the passes really lay',
    lag: 'least lag from the start of spraying',
    least: 'shortest soak of any point',
    greatest: 'longest soak of any point',
    'contacts.least': 'fewest contacts of any point',
    'contacts.most': 'most contacts of any point',
    rinses: 'rinse passes over the centreline',
  },
};

/** Computed from the text of one block alone, so that properties may use them too. */
export const earlyWords: Readonly<Record<string, readonly string[]>> = { deposit: ['area', 'length', 'widest'] };
