/**
 * The two common example jobs. Each is complete and free of findings, so that the example of a check only has to say what
 * it changes. The airport is invented.
 */
import type { Changes, Example } from './check.ts';

/** A file of an example. The first one is the job. */
export interface ExampleFile {
  readonly name: string;
  readonly text: string;
  /** Stands for a file that is there but can't be read: `// file: plant.broom (can't be read)`. */
  readonly unreadable?: boolean;
}

/** The files of an example; undefined when a change does not match its text exactly once. */
export function filesOf(example: Example): readonly ExampleFile[] | undefined {
  if (typeof example === 'string') return split(example);
  const [text, changes] = isChanges(example) ? [chemicalJob, example] : [waterJob, example.water];
  const changed = apply(text, changes);
  return changed === undefined ? undefined : [{ name: 'job.broom', text: changed }];
}

/** The example that a check has not: the common job as it stands. */
export function unchanged(example: Example): Example {
  if (typeof example === 'string') return example;
  return isChanges(example) ? chemicalJob : waterJob;
}

function isChanges(example: Exclude<Example, string>): example is Changes {
  return Array.isArray(example);
}

function apply(text: string, changes: Changes): string | undefined {
  let changed = text;
  for (let i = 0; i < changes.length; i += 2) {
    const [from, to] = [changes[i]!, changes[i + 1]!];
    const parts = changed.split(from);
    if (parts.length !== 2) return undefined;
    changed = parts.join(to);
  }
  return changed;
}

function split(text: string): readonly ExampleFile[] {
  const [job = '', ...others] = text.split(/^\/\/ file: /m);
  const rest = others.map((part): ExampleFile => {
    const line = part.indexOf('\n');
    const [, name = '', mark] = /^(\S+)( \(can't be read\))?/.exec(part.slice(0, line)) ?? [];
    return { name, text: part.slice(line + 1), ...(mark && { unreadable: true }) };
  });
  return job === '' && rest.length > 0 ? rest : [{ name: 'job.broom', text: job }, ...rest];
}

const place = `
airport TernSands {
    operator:    "Tern Sands Airport"
    location:    52.4217 °, -6.1134 °
    time-zone:   "Europe/Dublin"
    radio:       "escort on the ground channel"
    notice-lead: 72 h
    water-point Hydrant {
        distance: 600 m
        flow:     1200 L/min
    }
    emptying-point Sump {
        distance: 700 m
        takes:    10 min
    }
    wash-pad Pad {
        distance:  900 m
        drains-to: "foul sewer, with consent"
    }
}

runway Main {
    length:    2450 m
    width:     45 m
    pavement:  grooved asphalt
    texture:   1.2 mm
    crossfall: 1.5 %
    end "04" {
        displaced: 120 m
        landings:  60
    }
    end "22" {
        landings: 20
    }
}

deposit NorthTouchdown {
    on:       Main from "04"
    stations: table chainage m, left m, right m
        150   5    5
        300   6    6
        750   4    5
    build-up: heavy
}
`;

const limits = `
crew Night {
    people:      10
    shift:       8 h
    rest:        11 h
    break-after: 4 h
    break-of:    30 min
}

closure Nights {
    on:        Main
    hours:     23:00 to 05:00, Mon to Thu
    from:      2031-04-07
    to:        2031-05-01
    hand-back: 45 min
    recall:    3 h
    set-up:    20 min
    notice:    "issued by airport operations"
    spare:     2
}

weather-stop {
    wind:        <= 25 km/h
    wind-at:     "wind sock at the work, 2 m"
    air:         5 to 30 °C
    rain-within: 6 h
}

conditions {
    air:      12 °C
    surface:  12 °C
    humidity: 80 %
    wind:     8 km/h
    dry-for:  12 h
}

survey Before {
    on:       Main from "04"
    date:     2031-02-20
    device:   Surface Friction Tester
    speed:    65 km/h
    basis:    ICAO
    purpose:  need
    by:       "airport"
    stretch:  100 m
    readings: table chainage m, friction
        150 0.56
        250 0.54
        350 0.55
        450 0.57
        550 0.58
        650 0.59
        750 0.66
}

trial Patch {
    on:          Main from "04"
    chainage:    300 to 330 m
    left:        5 m
    right:       5 m
    work:        North
    freezes:     rate, soak
    accepted-by: "airport engineer"
    accepts:     "friction and texture beside an untrafficked strip"
}

hold-point BeforeWater {
    before:      "the first liquid of the night"
    released-by: "engineer on site"
    checks:      weather, calibration
}

acceptance {
    removed:  85 %
    of-area:  100 %
    device:   Surface Friction Tester
    speed:    65 km/h
    friction: 0.60
    stretch:  100 m
    within:   48 h
    by:       "airport engineer"
}

environment {
    drains:    blocked
    recovery:  sweeper
    recovered: 90 %
    goes-to:   "tanker to a treatment works"
    ph:        6 to 9.5
    solids:    "licensed landfill"
    spill-kit: yes
}

safety {
    protection:     "goggles", "gloves", "boots"
    eyewash:        "on the sprayer and at the store"
    exclusion-zone: 15 m
    escort:         "airside escort with radio"
    emergency:      "operations call stop; brooms leave first, then trucks, then sweepers"
    first-aid:      "kit in the escort vehicle"
    lighting:       "tower lights at the bay"
}

warranty {
    period: 365 d
    covers: lights, joints
    survey: "joints and lights photographed before the work"
}
`;

/** Chemical and brooms: the whole job on one page. */
export const chemicalJob = `broomline 1

job Spring {
    title:      "Rubber removal, runway 04/22"
    airport:    TernSands
    client:     "Tern Sands Airport"
    author:     "A. Engineer"
    checked-by: "B. Engineer"
    revision:   "C"
    issue:      for tender
    date:       2031-03-03
}
${place}
product Detergent {
    class:             "alkaline detergent"
    safety-data-sheet: "SDS 12, 2030-11-04"
    dilution:          1 part product to 4 parts water
    rate:              0.25 to 0.5 L/m2
    dwell-least:       30 min
    dwell-most:        5 h
    air:               5 to 35 °C
    surface:           5 to 45 °C
    density:           1010 kg/m3
    ph:                9
    suits:             asphalt, grooved asphalt
    protection:        "goggles", "gloves"
    waste:             "to a treatment works"
}

sprayer Boom {
    width:            8 m
    tank:             4000 L
    nozzles:          16
    spacing:          0.5 m
    nozzle-points:    table pressure bar, flow L/min
        0.5 9.9
        1 14
        2 19.8
        3 24.2
        4 28
    flow:             150 to 450 L/min
    calibrated-speed: 6 to 10 km/h
    calibrated:       2031-02-10
    calibrated-with:  "water"
    flushed:          yes
    working-speed:    4 to 14 km/h
}

broom Broom1 {
    width:         2.4 m
    angle:         30 °
    diameter:      0.9 m
    rotation:      300 rpm
    bristles:      polypropylene
    pattern:       75 mm
    working-speed: 3 to 12 km/h
    turning-radius: 6 m
    turn-speed:    10 km/h
}

broom Broom2 like Broom1 {
}

water-truck Tanker {
    width:         4 m
    tank:          12000 L
    flow:          60 to 2000 L/min
    working-speed: 3 to 15 km/h
}

sweeper Sweeper1 {
    width:         2.6 m
    picks-up-by:   regenerative air
    bristles:      polypropylene
    magnet:        full width
    hopper:        6 m3
    recovers:      90 %
    working-speed: 3 to 15 km/h
}

fleet {
    available: table machine, number
        "Sweeper1" 1
    spares:    broom, nozzles
}

method BroomAndRinse(soak: time = 40 min) {
    family:     chemical and brooms
    suits:      asphalt, grooved asphalt
    degree:     85 %
    submittals: "process plan", "safety data sheets", "disposal plan"
    role applicator {
        machine: sprayer
        width:   >= 6 m
    }
    role scrubbers {
        machine: broom
        number:  2
    }
    role water {
        machine: water-truck
    }
    role sweeper {
        machine: sweeper
    }
    step Sweep {
        does:      sweep
        by:        sweeper
        speed:     8 km/h
        direction: against landing
    }
    step PreWet {
        does:  pre-wet
        by:    water
        speed: 8 km/h
        rate:  0.5 L/m2
        when:  >= 25 °C
    }
    step Spray {
        does:  apply
        by:    applicator
        speed: 8 km/h
        rate:  0.35 L/m2 of mix
    }
    step Soak {
        does:     soak
        at-least: soak
        at-most:  4 h
    }
    step Agitate {
        does:    agitate
        by:      scrubbers
        speed:   6 km/h
        advance: half swept
        cycles:  2
        faces:   centreline
    }
    step Rinse {
        does:          rinse
        by:            water
        with:          scrubbers
        speed:         6 km/h
        rate:          3 L/m2
        travel:        outward
        faces:         edge
        first-circuit: about 3, at most 5
        until:         "the water runs clear"
    }
    step PickUp {
        does:   pick-up
        by:     sweeper
        speed:  6 km/h
        magnet: yes
    }
    step Wash {
        does:  wash-down
        by:    sweeper
        of:    plant
        takes: 30 min
    }
    step Inspect {
        does:      inspect
        of:        pavement, lights, markings, debris, residue
        takes:     20 min
        reopening: yes
    }
}

work North {
    removes:    NorthTouchdown
    method:     BroomAndRinse(soak: 40 min)
    product:    Detergent
    applicator: Boom
    scrubbers:  Broom1, Broom2
    water:      Tanker
    sweeper:    Sweeper1
    bays:       6
    closure:    Nights
    crew:       Night
}
${limits}`;

/** Low-pressure water, with a jetting unit. */
export const waterJob = `broomline 1

job Water {
    title:   "Rubber removal by water, runway 04/22"
    airport: TernSands
    date:    2031-03-03
}
${place.replace('    crossfall: 1.5 %\n', '    crossfall: 1.5 %\n    pressure-limit: 340 bar\n')}
jet Unit {
    width:          2 m
    pressure:       100 to 330 bar
    pressure-class: low pressure
    flow:           60 to 200 L/min
    nozzles:        24
    bore:           0.85 mm
    discharge:      0.9
    tank:           8000 L
    recovery-tank:  8000 L
    recovers:       90 %
    least-speed:    0.5 km/h
    working-speed:  0.5 to 5 km/h
}

sweeper Sweeper1 {
    width:         2.6 m
    picks-up-by:   regenerative air
    bristles:      polypropylene
    magnet:        full width
    working-speed: 3 to 15 km/h
}

method WaterOnly {
    family:     low-pressure water
    suits:      asphalt, grooved asphalt
    degree:     85 %
    submittals: "process plan", "disposal plan"
    role unit {
        machine: jet
    }
    role sweeper {
        machine: sweeper
    }
    step Jet {
        does:           jet
        by:             unit
        speed:          1.5 km/h
        pressure:       300 bar
        pressure-class: low pressure
        passes:         1
    }
    step PickUp {
        does:   pick-up
        by:     sweeper
        speed:  6 km/h
        magnet: yes
    }
    step Wash {
        does:  wash-down
        by:    sweeper
        of:    plant
        takes: 30 min
    }
    step Inspect {
        does:      inspect
        of:        pavement, lights, markings, debris
        takes:     20 min
        reopening: yes
    }
}

work North {
    removes: NorthTouchdown
    method:  WaterOnly
    bays:    2
    unit:    Unit
    sweeper: Sweeper1
    closure: Nights
    crew:    Night
}
${limits.replace('    freezes:     rate, soak\n', '    freezes:     pressure, speed\n')}`;
