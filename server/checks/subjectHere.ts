import type { Rule } from '../analysis.ts';
import type { Coordinates } from '../quantities/coordinates.ts';

/** A metre or so, in degrees. */
const sameDegrees = 1e-5;

/** From a place to itself there is no direction. Coordinates of a subject are easily copied from its spot and left so. */
export const subjectHere: Rule = {
  code: 'light/subject-here',
  severity: 'warning',
  doc: 'The subject has the coordinates of the spot itself, so that no direction leads to it. Give its own coordinates, or `distance:` and `facing:`.',
  check({ plan }, report) {
    for (const { at: spot, shots } of plan?.model.spots ?? []) {
      for (const { subject } of shots ?? []) {
        if (spot === undefined || subject?.at === undefined || !isSame(spot.value, subject.at.value))
          continue;
        report(
          subject.at,
          'The subject lies where you stand, so that no direction leads to it. Write its own coordinates, or its `distance:` and where the lens faces.',
          { related: [{ uri: spot.uri, span: spot.span, message: 'The spot.' }] },
        );
      }
    }
  },
};

function isSame(a: Coordinates, b: Coordinates): boolean {
  return Math.abs(a.latitude - b.latitude) < sameDegrees && Math.abs(a.longitude - b.longitude) < sameDegrees;
}
