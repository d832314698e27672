/** Units: dimensions, exact conversion, arithmetic of magnitudes, reading and showing. What later stages import. */

export * from './convert.ts';
export {
  ANGLE,
  AREA,
  dimension,
  divide as divideDimensions,
  ENERGY,
  FLOW,
  FORCE,
  LENGTH,
  MASS,
  multiply as multiplyDimensions,
  NUMBER,
  POWER,
  PRESSURE,
  power as powerOfDimension,
  SPEED,
  sameDimension,
  TEMPERATURE,
  TIME,
  VOLUME,
} from './dimensions.ts';
export * from './kinds.ts';
export * from './magnitude.ts';
export * from './parse.ts';
export type { Rational } from './rational.ts';
export * as rational from './rational.ts';
export * from './show.ts';
export * from './suggest.ts';
export type * from './types.ts';
