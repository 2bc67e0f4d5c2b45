import geomagnetism from 'geomagnetism';
import type { CivilDate } from '../quantities/date.ts';
import { from0To360, RADIANS } from './angles.ts';
import { civilMs } from './civil.ts';
import type { Place } from './place.ts';

/** What a compass needle does at a place. */
export interface Declination {
  /** East positive: true bearing = magnetic bearing + declination. */
  readonly degrees: number;
  /** Whether a model was made for the date. Outside, the last one is carried on and drifts from the truth. */
  readonly valid: boolean;
  /** Whether the needle hardly feels the field's direction: horizontal field below 6000 nT, the model's caution zone. */
  readonly nearPole: boolean;
  readonly horizontalNanotesla: number;
  /** The model's name and years: "WMM2025". */
  readonly model: string;
}

/** The first and last year for which a World Magnetic Model is at hand; the last is the first that is not covered. */
export const DECLINATION_YEARS = { from: 2015, to: 2030 } as const;

/** The edge of the caution zone. NOAA/NCEI and BGS, The US/UK World Magnetic Model for 2025-2030, 2024. */
const CAUTION_NANOTESLA = 6000;

/**
 * The models that the library ships, the latest first: from which year each is used, and two dates at which the library
 * takes that one. Within one model the field changes linearly, so two dates give every date; asked for a date that it
 * holds for invalid, the library would throw or write to the console.
 */
const MODELS = [
  { name: 'WMM2025', fromYear: 2025, anchors: [Date.UTC(2025, 0, 1), Date.UTC(2029, 0, 1)] },
  { name: 'WMM2020', fromYear: 2020, anchors: [Date.UTC(2020, 0, 1), Date.UTC(2024, 0, 1)] },
  { name: 'WMM2015v2', fromYear: 2018.72, anchors: [Date.UTC(2018, 9, 1), Date.UTC(2019, 9, 1)] },
  { name: 'WMM2015', fromYear: 2015, anchors: [Date.UTC(2015, 0, 1), Date.UTC(2018, 0, 1)] },
] as const;

/** Magnetic declination by the World Magnetic Model, good to about 0.4° away from the poles and from iron. */
export function magneticDeclination(place: Place, date: CivilDate): Declination {
  const year = decimalYear(date);
  const model = MODELS.find(({ fromYear }) => year >= fromYear) ?? MODELS[MODELS.length - 1] ?? MODELS[0];
  const [first, second] = model.anchors.map((instantMs) => ({
    year: libraryYear(instantMs),
    field: field(place, instantMs),
  })) as [Anchor, Anchor];
  const share = (year - first.year) / (second.year - first.year);
  const north = first.field.x + (second.field.x - first.field.x) * share;
  const east = first.field.y + (second.field.y - first.field.y) * share;
  const horizontalNanotesla = Math.sqrt(north * north + east * east);
  return {
    degrees: Math.atan2(east, north) / RADIANS,
    valid: year >= DECLINATION_YEARS.from && year < DECLINATION_YEARS.to,
    nearPole: horizontalNanotesla < CAUTION_NANOTESLA,
    horizontalNanotesla,
    model: model.name,
  };
}

interface Anchor {
  readonly year: number;
  readonly field: { readonly x: number; readonly y: number };
}

function field(place: Place, instantMs: number): { readonly x: number; readonly y: number } {
  const model = geomagnetism.model(new Date(instantMs), { allowOutOfBoundsModel: true });
  // The library takes kilometres.
  return model.point([place.latitude, place.longitude, (place.elevationMetres ?? 0) / 1000]);
}

/** The decimal year that the library computes: every year has 365 days. */
function libraryYear(instantMs: number): number {
  const year = new Date(instantMs).getUTCFullYear();
  return year + (instantMs - civilMs({ year, month: 1, day: 1 })) / (365 * 86_400_000);
}

function decimalYear(date: CivilDate): number {
  const startMs = civilMs({ year: date.year, month: 1, day: 1 });
  const endMs = civilMs({ year: date.year + 1, month: 1, day: 1 });
  return date.year + (civilMs(date) - startMs) / (endMs - startMs);
}

/** The bearing from true north of a compass bearing, 0 to 360. */
export function trueBearing(magneticBearingDegrees: number, declinationDegrees: number): number {
  return from0To360(magneticBearingDegrees + declinationDegrees);
}

/** The compass bearing of a bearing from true north, 0 to 360. */
export function magneticBearing(trueBearingDegrees: number, declinationDegrees: number): number {
  return from0To360(trueBearingDegrees - declinationDegrees);
}
