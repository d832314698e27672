import { blockKind, flag, phrase, quantity, text, words } from './define.ts';

/** Surfaces that a runway can have, and that methods and products are released for. */
export const pavements = [
  'asphalt',
  'grooved asphalt',
  'concrete',
  'grooved concrete',
  'porous friction course',
  'stone mastic asphalt',
  'slurry seal',
] as const;

export const end = blockKind({
  kind: 'end',
  doc: 'One end of the runway, by its designator. Chainage can be counted from either end.',
  group: 'place',
  top: false,
  called: 'designator',
  properties: {
    displaced: quantity('length', 'How far the landing threshold is displaced from the end of the pavement.', {
      least: '0 m',
      most: '1500 m',
      default: '0 m',
    }),
    threshold: phrase('position', 'Coordinates of the landing threshold.'),
    landings: quantity('count', 'Jet landings a day on this end, yearly mean.', { least: '0', most: '1000' }),
    landedMass: quantity('mass', 'Landed mass a year on this end.', { least: '0 t', most: '100000000 t' }),
    wideBodies: quantity('share', 'Share of wide-body aircraft among the landings.', { least: '0 %', most: '100 %' }),
    slope: quantity('slope', 'Longitudinal slope away from this end, rising positive.', {
      least: '-3 %',
      most: '3 %',
      default: '0 %',
    }),
    aimingPoint: quantity('length', 'Start of the aiming point marking from the threshold.', {
      least: '100 m',
      most: '600 m',
      example: '400 m',
    }),
  },
});

export const runway = blockKind({
  kind: 'runway',
  doc: 'A runway: its size, surface and ends.',
  group: 'place',
  properties: {
    length: quantity('length', 'Length of the pavement between its ends.', {
      required: true,
      least: '300 m',
      most: '6000 m',
      example: '2450 m',
    }),
    width: quantity('length', 'Width of the pavement.', {
      required: true,
      least: '10 m',
      most: '100 m',
      example: '45 m',
    }),
    pavement: words(pavements, 'Surface of the runway. It decides what methods it can bear.', { required: true }),
    texture: quantity('depth', 'Mean texture depth beside the deposit.', { least: '0.05 mm', most: '5 mm' }),
    grooveDepth: quantity('depth', 'Depth of the grooves.', { least: '1 mm', most: '15 mm' }),
    grooveSpacing: quantity('length', 'Distance of the grooves, centre to centre.', {
      least: '15 mm',
      most: '150 mm',
      example: '38 mm',
    }),
    crossfall: quantity('slope', 'Fall from the crown to the edges.', { least: '0 %', most: '3 %' }),
    crown: words(['centre', 'left edge', 'right edge'], 'Where the highest line of the cross section lies.', {
      default: 'centre',
    }),
    shoulder: words(['paved', 'grass', 'gravel'], 'What lies beside the pavement.', { default: 'grass' }),
    joints: text('Joints and their sealant, and what it stands.'),
    pressureLimit: quantity('pressure', 'Greatest water pressure the pavement may be worked with.', {
      least: '1 bar',
      most: '3000 bar',
    }),
    bearing: quantity('angle', 'True bearing of the centreline seen from the first end.', {
      least: '0 °',
      most: '360 °',
    }),
    centrelineLights: flag('Lights are set in the centreline.', { default: 'no' }),
    touchdownLights: flag('Lights are set in the touchdown zone.', { default: 'no' }),
  },
  blocks: { ends: end },
});
