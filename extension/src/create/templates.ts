/**
 * Texts that new files begin with. Pure; tests check that each comes out without a finding.
 *
 * A job stands on its own apart from plant, product and method, which are libraries. Its figures are placeholders of a
 * usual size, and say so: the engineer's own survey, data sheets and agreements with the airport replace them.
 */

export type Family = 'brooms' | 'water' | 'both';

export interface JobAnswers {
  readonly name: string;
  readonly family: Family;
  /** The two designations of the runway: 04 and 22. */
  readonly ends: readonly [string, string];
  readonly length: number;
  readonly width: number;
  /** First night, ISO. */
  readonly from: string;
}

export interface Libraries {
  /** Paths as the new file has to write them. */
  readonly plant: string;
  readonly products: string;
  readonly method: string;
}

/** The library that holds the method of a family, and its name. */
export const METHODS: Readonly<Record<Family, { readonly file: string; readonly method: string }>> = {
  brooms: { file: 'library/broom-and-rinse.broom', method: 'BroomAndRinse' },
  water: { file: 'library/low-pressure-water.broom', method: 'LowPressureWater' },
  both: { file: 'library/soak-then-jet.broom', method: 'SoakThenJet' },
};

export function jobText(answers: JobAnswers, libraries: Libraries): string {
  const { name, family, ends, length, width, from } = answers;
  const [first, second] = ends;
  const chemical = family !== 'water';
  const half = Math.min(7, Math.floor(width / 2) - 3);
  const uses = [
    `use "${libraries.plant}" as Plant`,
    ...(chemical ? [`use "${libraries.products}"`] : []),
    `use "${libraries.method}"`,
  ];
  return `broomline 1

// Every figure here is a placeholder of a usual size. Replace it with your survey, your data sheets, and what is agreed
// with the airport. Broomline computes and checks what stands here; it certifies nothing.

${uses.join('\n')}

job ${name} {
    title:      "Runway ${first}/${second}, removal of rubber deposits"
    airport:    Airport
    date:       ${from}
    units:      metric
}

airport Airport {
    operator:   "the airport's operations"
    location:   52 °, 0 °
    time-zone:  "UTC"

    water-point Hydrant {
        distance:   500 m
        flow:       1000 L/min
        hook-up:    4 min
    }
    emptying-point Separator {
        distance:   800 m
        takes:      12 min
    }
    wash-pad Pad {
        distance:   800 m
        drains-to:  "closed tank, emptied by a licensed carrier"
    }${
      chemical
        ? `
    product-store Store {
        distance:   800 m
        flow:       400 L/min
    }`
        : ''
    }
}

runway Main {
    length:         ${length} m
    width:          ${width} m
    pavement:       asphalt
    texture:        1 mm
    crossfall:      1.5 %
    shoulder:       paved
    pressure-limit: 345 bar

    end "${first}"
    end "${second}"
}

${family === 'both' ? '// Two units go behind one sprayer; the library has one.\njet Jetter2 like Plant.Jetter1\n\n' : ''}deposit Touchdown${first} {
    on:         Main from "${first}"
    stations:   table chainage m, left m, right m
                200  ${half}  ${half}
                500  ${half}  ${half}
    build-up:   medium
}

work Removal {
    removes:    Touchdown${first}
    method:     ${METHODS[family].method}
${rolesOf(family)}
    bays:       150 m
    closure:    Nights
}

closure Nights {
    on:         Main
    hours:      22:00 to 06:00
    from:       ${from}
    number:     6
    hand-back:  45 min
    recall:     ${chemical ? '2.5 h' : '45 min'}
    notice:     "issued by the airport"
    spare:      2
}

fleet {
    spares: ${chemical ? 'broom, nozzles, hoses' : 'nozzles, hoses'}
}

conditions {
    air:        12 °C
    surface:    13 °C
    humidity:   75 %
    wind:       8 km/h
}

weather-stop {
    wind:               <= 24 km/h
    air:                5 to 30 °C
    surface:            5 to 40 °C
    rain-within:        6 h
    dew-point-margin:   2 Δ°C
    lightning:          "everyone leaves the movement area on the operator's call"
}

acceptance {
    removed:        85 %
    of-area:        100 %
    device:         GripTester
    speed:          65 km/h
    friction:       0.53
    stretch:        100 m
    texture-loss:   5 %
    within:         72 h
    by:             "the airport's engineer"
}

environment {
    drains:     blocked
    recovery:   vacuum
    recovered:  90 %
    goes-to:    "tanker to a works with a permit"
    permit:     "number of the permit"
    ph:         6 to 9
    holding:    80 m3
    solids:     "skip, landfill by analysis"
    edge:       1.5 m
    spill-kit:  yes
}

safety {
    protection:     "by section 8 of the safety data sheet", "high-visibility clothing", "hearing protection"
    eyewash:        "on the sprayer and at the product store, 15 min supply"
    exclusion-zone: 15 m
    escort:         "airport vehicle on the ground channel"
    emergency:      "work stops and everyone leaves by the nearest exit on the escort's call"
    first-aid:      "airport fire service"
}

hold-point FirstWork {
    before:         "the first ${chemical ? 'spraying' : 'jetting'} of every night"
    step:           "${chemical ? 'Apply' : 'Jet'}"
    released-by:    "the airport's duty manager"
    checks:         weather, drains blocked, closure confirmed
    takes:          5 min
}

trial Patch {
    on:             Main from "${first}"
    chainage:       200 to 230 m
    left:           0 m
    right:          ${Math.min(half, 5)} m
    freezes:        ${{ brooms: 'rate, soak, cycles', water: 'pressure, speed, passes', both: 'rate, soak, pressure' }[family]}
    accepted-by:    "the airport's engineer"
    accepts:        "texture against an untrafficked strip beside it"
}

warranty {
    period: 365 d
    covers: lights, joints, markings
    survey: "photographs of joints, lights and markings the week before"
}
`;
}

function rolesOf(family: Family): string {
  const roles = {
    brooms: {
      product: 'Alkaline',
      applicator: 'Plant.Sprayer1',
      scrubbers: 'Plant.Broom1, Plant.Broom2',
      truck: 'Plant.Tanker1',
      rinser: 'Plant.RinseBroom',
      collector: 'Plant.Sweeper1',
    },
    water: { jetter: 'Plant.Jetter1', collector: 'Plant.Sweeper1' },
    both: {
      product: 'Alkaline',
      applicator: 'Plant.Sprayer1',
      jetter: 'Plant.Jetter1, Jetter2',
      truck: 'Plant.Tanker1',
      rinser: 'Plant.RinseBroom',
      collector: 'Plant.Sweeper1',
    },
  }[family];
  return Object.entries(roles)
    .map(([role, value]) => `    ${`${role}:`.padEnd(12)}${value}`)
    .join('\n');
}

/** A method by its family, with the steps in the order of the trade. */
export function methodText(name: string): string {
  return `broomline 1

// A method is written once, with roles instead of machines; a job says which machine takes which role, and may change
// the parameters by name: ${name}(soak: 40 min). Every figure here is a placeholder of a usual size.

method ${name}(
    soak: time = 35 min,
    rate: application rate = 0.35 L/m2
) {
    family:     chemical and brooms
    suits:      asphalt, grooved asphalt, concrete, grooved concrete
    degree:     85 %
    submittals: "process plan", "calibration record of the sprayer", "safety data sheet", "disposal plan"
    cautions:   "nobody on foot between the machines"

    role applicator {
        machine: sprayer
    }
    role scrubbers {
        machine:    broom
        bristles:   polypropylene, nylon
        number:     2
    }
    role truck {
        machine: water-truck
    }
    role rinser {
        machine:    broom
        bristles:   polypropylene, nylon
    }
    role collector {
        machine: sweeper
    }

    step Sweep {
        does:       sweep
        by:         collector
        speed:      18 km/h
        overlap:    0.3 m
        direction:  against landing
    }
    step PreWet {
        does:   pre-wet
        by:     truck
        speed:  8 km/h
        rate:   0.3 L/m2 of water
        when:   >= 30 °C
    }
    step Apply {
        does:       apply
        by:         applicator
        speed:      11.3 km/h
        rate:       rate of mix
        pattern:    alternate sides
        overlap:    0.1 m
        pass-rate:  0.2 L/m2
    }
    step KeepWet {
        does:   keep-wet
        by:     truck
        speed:  12 km/h
        rate:   0.15 L/m2 of water
        every:  15 min
        when:   >= 30 °C
    }
    step Soak {
        does:       soak
        at-least:   soak
        at-most:    3.5 h
    }
    step Agitate {
        does:       agitate
        by:         scrubbers
        speed:      8 km/h
        advance:    half swept
        cycles:     1
        contacts:   >= 2
        tandem:     next lane 40 m apart
        faces:      centreline
    }
    step Rinse {
        does:           rinse
        by:             truck
        with:           rinser
        speed:          6 km/h
        rate:           3 L/m2 of water
        travel:         outward
        advance:        half swept
        first-circuit:  about 3, at most 5
        each-circuit:   about 1, at most 2
        faces:          edge
        headway:        20 m
        until:          "the water runs clear and no foam stands"
    }
    step PickUp {
        does:       pick-up
        by:         collector
        speed:      6 km/h
        overlap:    0.3 m
        magnet:     yes
    }
    step Lights {
        does:   hand-clean
        of:     lights
        takes:  10 min
    }
    step Wash {
        does:   wash-down
        at:     "the wash pad"
        of:     plant
        takes:  30 min
    }
    step Inspect {
        does:       inspect
        takes:      20 min
        of:         pavement, markings, lights, joints, drains, debris, residue
        reopening:  yes
    }

    build-up heavy {
        rate:   0.4 L/m2 of mix
        coats:  2
        cycles: 2
        soak:   40 min
    }
}
`;
}

/** Plant of a fleet: one machine of each kind, to copy and adapt with `like`. */
export function plantText(calibrated: string): string {
  return `broomline 1

// Plant is written once and used by every job: use "this-file.broom" as Plant, then Plant.Sprayer1.
// Every figure here is a placeholder of a usual size. Take yours from the machine's own record.

sprayer Sprayer1 {
    width:              6 m
    tank:               4000 L
    nozzles:            12
    spacing:            0.5 m
    fan:                110 °
    height:             0.5 m
    nozzle-points:      table pressure bar, flow L/min
                        1.5  11.6
                          2  13.4
                          3  16.5
                          4  19.0
                          6  23.3
    flow:               130 to 280 L/min
    calibrated-speed:   8 to 14 km/h
    calibrated:         ${calibrated}
    calibrated-with:    "the product, at its rate and speed"
    flushed:            yes
    turning-radius:     8 m
    turn-speed:         7 km/h
    working-speed:      4 to 16 km/h
    crew:               1
    track-keeping:      0.1 m
}

broom Broom1 {
    width:          2.4 m
    angle:          30 °  // from square across
    diameter:       0.9 m
    rotation:       300 rpm
    bristles:       polypropylene
    pattern:        75 mm
    turning-radius: 7 m
    turn-speed:     8 km/h
    working-speed:  3 to 12 km/h
    crew:           1
    track-keeping:  0.15 m
}

// A block can start from another and change only what differs.
broom Broom2 like Broom1

broom RinseBroom like Broom1 {
    pattern: 60 mm
}

water-truck Tanker1 {
    width:          4 m
    tank:           12000 L
    flow:           100 to 2000 L/min
    pressure:       4 bar
    turning-radius: 9 m
    turn-speed:     8 km/h
    working-speed:  2 to 20 km/h
    crew:           1
    track-keeping:  0.2 m
}

sweeper Sweeper1 {
    width:          2.6 m
    picks-up-by:    regenerative air
    bristles:       polypropylene
    rotation:       250 rpm
    magnet:         full width
    hopper:         6 m3
    recovers:       85 %
    turning-radius: 7 m
    turn-speed:     8 km/h
    working-speed:  3 to 25 km/h
    turns:          reverse
    crew:           1
    track-keeping:  0.1 m
}

jet Jetter1 {
    width:          2 m
    pressure:       100 to 330 bar
    pressure-class: low pressure
    flow:           80 to 220 L/min
    nozzles:        16
    bore:           1.1 mm
    stand-off:      40 mm
    tank:           9000 L
    recovery-tank:  9000 L
    recovers:       90 %
    least-speed:    0.2 km/h
    turning-radius: 9 m
    turn-speed:     6 km/h
    working-speed:  0.3 to 4 km/h
    set-up:         20 min
    crew:           2
    track-keeping:  0.05 m
}
`;
}

/** `summer-nights 2031` → `SummerNights2031`: a name of the language. */
export function nameFrom(words: string): string {
  const joined = words
    .split(/[^\p{L}\p{N}]+/u)
    .filter(each => each !== '')
    .map(each => each[0]!.toUpperCase() + each.slice(1))
    .join('');
  return /^[A-Za-z]/.test(joined) ? joined.replace(/[^A-Za-z0-9]/g, '') : `Job${joined.replace(/[^A-Za-z0-9]/g, '')}`;
}

/** `SummerNights2031` → `summer-nights-2031.broom` */
export function fileFrom(name: string): string {
  return `${name
    .replace(/([a-z])([A-Z0-9])/g, '$1-$2')
    .replace(/([0-9])([A-Za-z])/g, '$1-$2')
    .toLowerCase()}.broom`;
}

/** `4/22`, `04-22`, `04L/22R` → the two designations; undefined where they are not those of one runway. */
export function endsFrom(text: string): readonly [string, string] | undefined {
  const match = /^\s*(\d{1,2})([LCR]?)\s*[/\-–]\s*(\d{1,2})([LCR]?)\s*$/i.exec(text);
  if (!match) return undefined;
  const [a, b] = [Number(match[1]), Number(match[3])];
  if (a < 1 || a > 36 || b < 1 || b > 36 || Math.abs(a - b) !== 18) return undefined;
  const [sideA, sideB] = [match[2]!.toUpperCase(), match[4]!.toUpperCase()];
  const mirrored: Readonly<Record<string, string>> = { L: 'R', R: 'L', C: 'C', '': '' };
  if (mirrored[sideA] !== sideB) return undefined;
  const two = (number: number) => String(number).padStart(2, '0');
  return [two(a) + sideA, two(b) + sideB];
}
