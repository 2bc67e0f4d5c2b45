import type { Checkable } from '../analysis.ts';
import type { Value } from '../plan/table.ts';
import type { Coordinates } from '../quantities/coordinates.ts';

/** A day's outing does not go further than this. Common practice, no source. */
const farKilometres = 500;
/** A mend that brings such a place this near to another one is surely right. */
const nearKilometres = 100;

/** A place this far is doubted too, when another order or other signs would bring it next to another one. */
const doubtfulKilometres = 100;
const nextToKilometres = 10;

/** What a lens looks at lies this near to the spot. Common practice, no source. */
const inSightKilometres = 50;

/** The mean radius of the Earth; a sphere is good enough to tell 500 km (IUGG, 6371.0 km). */
const earthKilometres = 6371;

/** A place far from every other one of the plan, the nearest of those, and what was meant, where that is clear. */
export interface FarPlace {
  readonly place: Located;
  readonly kilometres: number;
  readonly other: Located;
  readonly kind: 'place' | 'subject';
  readonly meant: Coordinates | undefined;
}

/** Of two places that are far from each other, only the one further down is told. */
export function farPlaces(analysis: Checkable): readonly FarPlace[] {
  const places = placesOf(analysis);
  const far = places.flatMap((place) => doubted('place', place, places));
  return [...(places.length === 2 ? far.slice(1) : far), ...farSubjects(analysis)];
}

/** Subjects that lie far from the spot from which they are taken. */
function farSubjects({ plan }: Checkable): readonly FarPlace[] {
  return (plan?.model.spots ?? []).flatMap(({ at, shots }) => {
    if (at === undefined) return [];
    const subjects = (shots ?? []).flatMap(({ subject }) => (subject?.at === undefined ? [] : [subject.at]));
    return subjects.flatMap((subject) => doubted('subject', subject, [at]));
  });
}

/** A place that lies far from all others, or at some distance and one slip away from one of them. */
function doubted(kind: FarPlace['kind'], place: Located, places: readonly Located[]): readonly FarPlace[] {
  const { kilometres, other } = nearestTo(place.value, place, places);
  if (other === undefined || kilometres <= doubtfulKilometres) return [];
  const nextTo = kind === 'place' ? nextToKilometres : inSightKilometres;
  const near = kilometres > farKilometres ? nearKilometres : nextTo;
  const meant = slips(place.value).find((candidate) => nearestTo(candidate, place, places).kilometres < near);
  return kilometres > farKilometres || meant !== undefined ? [{ place, kilometres, other, meant, kind }] : [];
}

/** Coordinates where they stand. */
type Located = Value<Coordinates>;

function placesOf({ plan }: Checkable): readonly Located[] {
  const from = plan?.model.start?.from;
  const spots = (plan?.model.spots ?? []).flatMap(({ at }) => (at === undefined ? [] : [at]));
  return from === undefined ? spots : [from, ...spots];
}

/** The nearest of the other places; looking ends at the first one that is near enough to say nothing. */
function nearestTo(point: Coordinates, own: Located, places: readonly Located[]) {
  let kilometres = Number.POSITIVE_INFINITY;
  let other: Located | undefined;
  for (const place of places) {
    if (place === own) continue;
    const distance = greatCircle(point, place.value);
    if (distance < kilometres) [kilometres, other] = [distance, place];
    if (distance < nextToKilometres) break;
  }
  return { kilometres, other };
}

/** What may have been meant: the other order, the other signs. */
function slips({ latitude, longitude }: Coordinates): readonly Coordinates[] {
  const turned = [
    { latitude, longitude: -longitude },
    { latitude: longitude, longitude: latitude },
    { latitude: -latitude, longitude },
    { latitude: -latitude, longitude: -longitude },
    { latitude: longitude, longitude: -latitude },
    { latitude: -longitude, longitude: latitude },
  ];
  return turned.filter((place) => Math.abs(place.latitude) <= 90);
}

function greatCircle(a: Coordinates, b: Coordinates): number {
  const radians = Math.PI / 180;
  const half = (difference: number) => Math.sin((difference * radians) / 2) ** 2;
  const across =
    half(b.latitude - a.latitude) +
    Math.cos(a.latitude * radians) * Math.cos(b.latitude * radians) * half(b.longitude - a.longitude);
  return 2 * earthKilometres * Math.asin(Math.min(1, Math.sqrt(across)));
}
