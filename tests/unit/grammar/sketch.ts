/** A small complete job at an invented airport, for the tests of the syntax. */
export const SKETCH = `broomline 1                        // version of the language

// Tern Sands Airport is invented.
use "../library/district-plant.broom" as District
use "../library/broom-and-rinse.broom"

runway Main {
    length:     2450 m
    width:      45 m
    pavement:   grooved asphalt
    crossfall:  1.5 %
    end "04" { displaced: 120 m }
    end "22"
}

deposit NorthTouchdown {
    on:         Main from "04"
    stations:   table chainage m, left m, right m
                150   9   9
                300  11  11
                750   8   9
    build-up:   heavy
}

method BroomAndRinse(soak: time = 35 min, rate: application rate) {
    role applicator { kind: sprayer, width: >= 6 m }
    step Apply { does: apply, by: applicator, rate: rate of mix, pattern: alternate sides }
    step Soak { at-least: soak, at-most: 90 min }
    step Agitate { does: agitate, by: scrubbers, advance: half swept, cycles: 2 }
}

/* The north end comes first. */
work North {
    removes:    NorthTouchdown
    method:     BroomAndRinse(soak: 40 min, rate: 0.35 L/m2)
    applicator: District.Sprayer1
    scrubbers:  District.Broom1, District.Broom2
    bays:       3
}

broom B2 like District.Broom1 {
    without Magnet, Spare
    speed: 5 °C to -3 °C
}

closure Nights {
    on:         Main
    hours:      23:00 to 05:00, Mon to Thu
    from:       2031-04-07
    time-zone:  "Europe/Dublin"
    hand-back:  45 min
    recall:     30 min
}

require North.product <= 6000 L because "one delivery"
require North.soak.least >= 28 min and (North.cost <
    30000 EUR or not North.late)
waive soak-too-short on North.Agitate while North.soak.least >= 28 min
    because "trial patch of 2031" by "A. Engineer"
    until 2031-06-30
`;
