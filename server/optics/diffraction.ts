/**
 * The blur of a small aperture. Micrometres throughout; N is the effective f-number, λ the wavelength.
 * Source: M. Born, E. Wolf, Principles of Optics, section 8.5 (first zero of J1 at 1.22 π).
 */

/** Green light, where the eye and the sensor see best. */
export const greenMicrometres = 0.55;

/** The diameter of the Airy disc to its first dark ring: 2.44·λ·N. */
export function airyDiameter(fNumber: number, wavelength = greenMicrometres): number {
  return 2.44 * wavelength * fNumber;
}

/** How far apart two points must lie to be told apart (Rayleigh): 1.22·λ·N. */
export function rayleighSeparation(fNumber: number, wavelength = greenMicrometres): number {
  return 1.22 * wavelength * fNumber;
}

/** The finest pattern that gets through at all, in line pairs per millimetre: 1/(λ·N). */
export function cutoffLinePairs(fNumber: number, wavelength = greenMicrometres): number {
  return 1000 / (wavelength * fNumber);
}

/** How many pixels the Airy disc is across. */
export function airyPixels(fNumber: number, pitchMicrometres: number): number {
  return airyDiameter(fNumber) / pitchMicrometres;
}

/** An Airy disc up to this many pixels across costs no visible sharpness; common practice, no source (2 to 3 are in use). */
export const sharpDiscPixels = 2.5;

/** The smallest aperture, as an exact f-number, that still gives all the sharpness that the pixels can show. */
export function sharpestFNumber(pitchMicrometres: number, discPixels = sharpDiscPixels): number {
  return (discPixels * pitchMicrometres) / (2.44 * greenMicrometres);
}

/**
 * The smallest aperture at which diffraction stays within the circle of confusion, given in millimetres: from there on it
 * shows in the print and not only in single pixels.
 */
export function smallestPrintFNumber(circleMillimetres: number): number {
  return (circleMillimetres * 1000) / (2.44 * greenMicrometres);
}
