/**
 * The additive system of photographic exposure (APEX) and the two calibration constants of exposure meters.
 * Exposure values are in stops; EV 0 at ISO 100 is 1 s at f/1.
 * Sources: ISO 2720:1974 (meter constants K and C); ASA PH2.12-1961 (APEX); Exif 2.3, annex C (speed constant 1/3.125).
 */

/** K of a meter that reads reflected light, cd·s/m²·ISO. ISO 2720 allows 10.6 to 13.4; 12.5 is the usual choice. */
export const reflectedConstant = 12.5;

/** C of a meter that reads incident light with a flat receptor, lx·s·ISO. ISO 2720 allows 240 to 400. */
export const incidentConstant = 250;

/** A shutter time with the aperture and the sensitivity that it belongs to. */
export interface Exposure {
  readonly seconds: number;
  readonly fNumber: number;
  /** ISO arithmetic speed. */
  readonly iso: number;
}

/** Av = log2(N²), stops. */
export function apertureValue(fNumber: number): number {
  return 2 * Math.log2(fNumber);
}

/** Tv = log2(1/t), stops. */
export function timeValue(seconds: number): number {
  return -Math.log2(seconds);
}

/** Sv = log2(S/3.125), stops: 5 at ISO 100. */
export function speedValue(iso: number): number {
  return Math.log2(iso / 3.125);
}

/** Bv = Ev − Sv, stops, for a luminance in cd/m²: 0 at 4 cd/m² with K = 12.5. */
export function brightnessValue(luminanceCandelas: number, constant = reflectedConstant): number {
  return Math.log2((luminanceCandelas * 3.125) / constant);
}

/** The exposure value, referred to ISO 100, of light that is exposed correctly by this exposure: log2(N²/t) − log2(S/100). */
export function ev100({ fNumber, seconds, iso }: Exposure): number {
  return apertureValue(fNumber) + timeValue(seconds) - Math.log2(iso / 100);
}

/** The shutter time in seconds for light of the given exposure value at ISO 100. The f-number is taken as it stands. */
export function secondsFor(light: { ev100: number; fNumber: number; iso: number }): number {
  return light.fNumber ** 2 / (2 ** light.ev100 * (light.iso / 100));
}

/** The exposure value of the same light at another sensitivity. */
export function evAtIso(ev100: number, iso: number): number {
  return ev100 + Math.log2(iso / 100);
}

/** Luminance in cd/m²: 2^EV · K / 100. */
export function luminance(ev100: number, constant = reflectedConstant): number {
  return (2 ** ev100 * constant) / 100;
}

/** Illuminance in lux: 2^EV · C / 100. */
export function illuminance(ev100: number, constant = incidentConstant): number {
  return (2 ** ev100 * constant) / 100;
}

/** The exposure value at ISO 100 of a luminance in cd/m². */
export function ev100FromLuminance(luminanceCandelas: number, constant = reflectedConstant): number {
  return Math.log2((100 * luminanceCandelas) / constant);
}

/** The exposure value at ISO 100 of an illuminance in lux. */
export function ev100FromIlluminance(illuminanceLux: number, constant = incidentConstant): number {
  return Math.log2((100 * illuminanceLux) / constant);
}

/**
 * The reflectance of the matt surface on which a reflected and an incident reading agree: π·K/C. It is 15.7 % with the
 * usual constants, not the 18 % of a grey card.
 */
export function agreeingReflectance(reflected = reflectedConstant, incident = incidentConstant): number {
  return (Math.PI * reflected) / incident;
}

/** How many stops more `b` is than `a`: log2(b/a). For shutter times, luminances or any two linear amounts of light. */
export function stopsBetween(a: number, b: number): number {
  return Math.log2(b / a);
}
