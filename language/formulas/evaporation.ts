/**
 * Evaporation of water from a wet pavement and how long a film lasts.
 *
 * The equations are empirical and were fitted in °C (or °F), km/h (or mph) and kPa (or psi). Here they take temperatures
 * in °C, humidity as a share 0 to 1, wind in m/s (measured about 0.5 m above the surface), and give the depth of water
 * lost in m/s: 1 kg/m²/h is 1 mm/h is 2.78e-7 m/s. All hold for *water*; a product with surfactants or solvents dries
 * otherwise. Actual evaporation lies within about ± 40 % (`hover-evaporation`), so results are a warning, never proof.
 */

/** Weather at the wet surface. */
export interface DryingWeather {
  /** °C */
  readonly surfaceTemperature: number;
  /** °C */
  readonly airTemperature: number;
  /** 0 to 1 */
  readonly humidity: number;
  /** m/s, about 0.5 m above the surface */
  readonly wind: number;
}

/** Relative half-width of the band round an estimate. Source: `hover-evaporation`. */
export const evaporationBand = 0.4;

/** kg/m²/h of water as m/s of depth. */
const perHour = 1 / 1000 / 3600;
const kilometresPerHour = 3.6;
const milesPerHour = 1 / 0.44704;
const poundsPerSquareFoot = 0.45359237 / 0.09290304;
const pascalsPerPsi = 6894.757293168361;

/**
 * Menzel, SI form: 0.315·(e_s − r·e_a)·(0.253 + 0.060·V) kg/m²/h with kPa and km/h. Use this one where the pavement is
 * hot. Negative where dew forms. Source: `menzel-si`.
 */
export function menzelEvaporation(weather: DryingWeather): number {
  const deficit = vapourPressureDeficit(weather) / 1000;
  return 0.315 * deficit * (0.253 + 0.06 * weather.wind * kilometresPerHour) * perHour;
}

/**
 * Menzel, US customary form: 0.44·(e_s − r·e_a)·(0.253 + 0.096·V) lb/ft²/h with psi and mph. Kept as an independent
 * check of the SI form; the coefficients of the two must never be mixed. Source: `menzel-us`.
 */
export function menzelEvaporationUs(weather: DryingWeather): number {
  const deficit = vapourPressureDeficit(weather) / pascalsPerPsi;
  return 0.44 * deficit * (0.253 + 0.096 * weather.wind * milesPerHour) * poundsPerSquareFoot * perHour;
}

/**
 * Uno, SI form: 5·([Tc + 18]^2.5 − r·[Ta + 18]^2.5)·(V + 4)·10⁻⁶ kg/m²/h, km/h. Its rounded constants run 4 to 5 % below
 * the US form, and on hot pavement it is about a fifth below Menzel. NaN below −18 °C. Source: `uno-si`.
 */
export function unoEvaporation(weather: DryingWeather): number {
  return uno(weather, 5, 18, 4);
}

/** Uno, exact metric form of the US one: constants 5.275, 17.778 and 4.02336. Source: `uno-metric-exact`. */
export function unoEvaporationExact(weather: DryingWeather): number {
  return uno(weather, 5.275, 17.778, 4.02336);
}

/** Uno, US customary form: (Tc^2.5 − r·Ta^2.5)·(1 + 0.4·V)·10⁻⁶ lb/ft²/h with °F and mph. Source: `uno-us`. */
export function unoEvaporationUs(weather: DryingWeather): number {
  const surface = fahrenheit(weather.surfaceTemperature) ** 2.5;
  const air = fahrenheit(weather.airTemperature) ** 2.5;
  const wind = 1 + 0.4 * weather.wind * milesPerHour;
  return (surface - weather.humidity * air) * wind * 1e-6 * poundsPerSquareFoot * perHour;
}

function uno(weather: DryingWeather, factor: number, shift: number, calm: number): number {
  const surface = (weather.surfaceTemperature + shift) ** 2.5;
  const air = (weather.airTemperature + shift) ** 2.5;
  return factor * (surface - weather.humidity * air) * (weather.wind * kilometresPerHour + calm) * 1e-6 * perHour;
}

function fahrenheit(celsius: number): number {
  return celsius * 1.8 + 32;
}

function vapourPressureDeficit(weather: DryingWeather): number {
  return (
    saturationVapourPressure(weather.surfaceTemperature) -
    weather.humidity * saturationVapourPressure(weather.airTemperature)
  );
}

/** Saturation vapour pressure over water, 610.8·exp(17.27·T/(T + 237.3)) Pa, T in °C. Source: `fao-56`. */
export function saturationVapourPressure(temperature: number): number {
  return 610.8 * Math.exp((17.27 * temperature) / (temperature + 237.3));
}

/**
 * Dew point of air, °C: the temperature at which its vapour saturates. The inverse of `saturationVapourPressure`.
 * @param humidity 0 to 1; above 0
 * Source: `dew-point-inverse`.
 */
export function dewPoint(airTemperature: number, humidity: number): number {
  const logarithm = Math.log(humidity) + (17.27 * airTemperature) / (airTemperature + 237.3);
  return (237.3 * logarithm) / (17.27 - logarithm);
}

/** How long a film lasts, s: Infinity where nothing evaporates. */
export interface FilmLife {
  readonly least: number;
  readonly nominal: number;
  readonly greatest: number;
}

/**
 * Life of a film of a depth (m) at an evaporation rate (m/s), with the band of ± 40 %.
 * Sources: `mechanics` for depth over rate, `hover-evaporation` for the band.
 */
export function filmLife(depth: number, evaporation: number): FilmLife {
  if (evaporation <= 0) {
    return { least: Number.POSITIVE_INFINITY, nominal: Number.POSITIVE_INFINITY, greatest: Number.POSITIVE_INFINITY };
  }
  return {
    least: depth / (evaporation * (1 + evaporationBand)),
    nominal: depth / evaporation,
    greatest: depth / (evaporation * (1 - evaporationBand)),
  };
}

/**
 * Dunne's mass-transfer evaporation, (0.013 + 0.00016·v₂)·e₀·(1 − r) cm/day with km/day and mbar, as m/s.
 * @param wind m/s at 2 m
 * @param saturation saturation vapour pressure, Pa
 * Source: `dunne-combination`.
 */
export function dunneEvaporation(wind: number, saturation: number, humidity: number): number {
  const kilometresPerDay = (wind * 86_400) / 1000;
  const centimetresPerDay = (0.013 + 0.00016 * kilometresPerDay) * (saturation / 100) * (1 - humidity);
  return centimetresPerDay / 100 / 86_400;
}

/**
 * Penman's combination of an energy term and a mass-transfer term, (α·En + Ea)/(α + 1), in the unit of the terms.
 * @param alpha slope of the vapour pressure curve over the psychrometric constant
 * Source: `dunne-combination`.
 */
export function penmanCombination(alpha: number, energyTerm: number, massTransferTerm: number): number {
  return (alpha * energyTerm + massTransferTerm) / (alpha + 1);
}
