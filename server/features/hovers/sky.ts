import type { Coordinates } from '../../quantities/coordinates.ts';
import { formatDate } from '../../quantities/date.ts';
import { formatDuration } from '../../quantities/duration.ts';
import type { EventName } from '../../quantities/events.ts';
import type { DaySpot } from '../../schedule/day.ts';
import { sunUpDegrees } from '../../schedule/light.ts';
import type { SpotPlace } from '../../schedule/place.ts';
import { moonPosition, sunPosition } from '../../sky/bodies.ts';
import type { Sighting } from '../../sky/events.ts';
import { geodesic } from '../../sky/geodesy.ts';
import { nextPhase, phaseName } from '../../sky/moonPhase.ts';
import { clockText } from '../localTime.ts';
import { code, figures, paragraphs, table } from '../markdown.ts';
import { altitudeText, bearingText, decimal, distanceText, signed } from '../numbers.ts';
import { weekday, zoneText } from '../wording.ts';
import { zoneOrigin } from './moment.ts';
import type { HoverKind } from './scene.ts';

/** The date: what happens in the sky over the first spot. */
export const dateHover: HoverKind = ({ analysis, mark }) => {
  if (mark.section.name !== 'plan' || (mark.name !== 'date' && mark.name !== 'timezone')) return undefined;
  const spot = analysis.day?.spots.find(({ at }) => at !== undefined);
  if (spot?.at === undefined) return undefined;
  const name = spot.spot.id === undefined ? 'the first spot' : code(spot.spot.id.value);
  const length = dayLength(spot.at);
  return paragraphs(
    `**${weekday(spot.at.date)} ${formatDate(spot.at.date)}** at ${name}${length === undefined ? '' : `: ${length}`}`,
    dayText(spot.at),
  );
};

/** The coordinates of a spot: other spellings, what the compass does there, the sky of the day. */
export const placeHover: HoverKind = ({ analysis, mark, spot }) => {
  if (mark.name !== 'at' || mark.section.name !== 'spot' || spot?.spot.at === undefined) return undefined;
  const { value } = spot.spot.at;
  const { at } = spot;
  const spots = analysis.day?.spots ?? [];
  const before = spots[spots.indexOf(spot) - 1];
  return paragraphs(
    figures([
      ...coordinateForms(value),
      ['from the spot before', fromBefore(before, value)],
      [
        'compass',
        at === undefined ? undefined : compassText(analysis.memory.sky.declinationOf(at.place, at.date)),
      ],
    ]),
    at === undefined ? undefined : dayText(at),
  );
};

/** A height of the skyline: what it does to sun and moon on that day. */
export const skylineHover: HoverKind = ({ mark, spot }) => {
  const at = spot?.at;
  if (mark.name !== 'skyline' || mark.section.name !== 'spot' || at?.skyline === undefined) return undefined;
  const sky = at.sky(0);
  const rows = overLand.map((name): readonly [string, string] => {
    const sighting = sky.event(name);
    if (sighting.kind === 'never') return [name, `does not happen: ${sighting.reason}`];
    return [name, `${timesText(sighting, at)}, ${aimText(name, sighting.instantMs, at)}`];
  });
  return paragraphs(
    figures(rows),
    mark.field.doc,
    'Between two directions the height is interpolated; the height as seen, with mean refraction, counts.',
  );
};

const overLand = [
  'sun clears skyline',
  'sun leaves skyline',
  'moon clears skyline',
  'moon leaves skyline',
] as const;

/** Coordinates in the forms that maps and receivers use. */
export function coordinateForms({
  latitude,
  longitude,
}: Coordinates): readonly (readonly [string, string])[] {
  const pair = `${latitude.toFixed(5)},${longitude.toFixed(5)}`;
  return [
    ['degrees', `\`${latitude.toFixed(5)}, ${longitude.toFixed(5)}\``],
    ['minutes, seconds', `\`${sexagesimal(latitude, 'N', 'S')} ${sexagesimal(longitude, 'E', 'W')}\``],
    ['address', `\`geo:${pair}\``],
  ];
}

/** 54°25'48.4"N; seconds to a tenth are 3 m on the ground. */
function sexagesimal(degrees: number, plus: string, minus: string): string {
  const tenths = Math.round(Math.abs(degrees) * 36_000);
  const whole = Math.floor(tenths / 36_000);
  const minutes = Math.floor(tenths / 600) % 60;
  const seconds = (tenths % 600) / 10;
  return `${whole}°${String(minutes).padStart(2, '0')}'${seconds.toFixed(1).padStart(4, '0')}"${degrees < 0 ? minus : plus}`;
}

function fromBefore(before: DaySpot | undefined, to: Coordinates): string | undefined {
  const from = before?.spot.at?.value;
  if (from === undefined) return undefined;
  const way = geodesic(from, to);
  return `${distanceText(way.distanceMetres)} towards ${bearingText(way.bearingDegrees)} as the crow flies`;
}

type Compass = ReturnType<Parameters<HoverKind>[0]['analysis']['memory']['sky']['declinationOf']>;

/** What a compass needle is off by. */
export function compassText({ degrees, model, valid, nearPole }: Compass): string {
  const side = degrees < 0 ? 'west' : 'east';
  const doubts = [
    valid ? undefined : 'the model was not made for this date',
    nearPole ? 'near the magnetic pole: do not trust a compass' : undefined,
  ].filter((doubt) => doubt !== undefined);
  return `declination ${signed(degrees, 1)}° (${decimal(Math.abs(degrees), 1)}° ${side}, ± 0.4°, ${model}): true = compass ${degrees < 0 ? '−' : '+'} ${decimal(Math.abs(degrees), 1)}°${doubts.length === 0 ? '' : `; ${doubts.join('; ')}`}`;
}

const rows: readonly { readonly label: string; readonly from: EventName; readonly to?: EventName }[] = [
  { label: 'astronomical dawn', from: 'astronomical dawn' },
  { label: 'nautical dawn', from: 'nautical dawn' },
  { label: 'civil dawn', from: 'civil dawn' },
  { label: 'blue hour', from: 'morning blue hour start', to: 'morning blue hour end' },
  { label: 'golden hour', from: 'morning golden hour start', to: 'morning golden hour end' },
  { label: 'sunrise', from: 'sunrise' },
  { label: 'sun clears skyline', from: 'sun clears skyline' },
  { label: 'solar noon', from: 'solar noon' },
  { label: 'sun leaves skyline', from: 'sun leaves skyline' },
  { label: 'golden hour', from: 'evening golden hour start', to: 'evening golden hour end' },
  { label: 'sunset', from: 'sunset' },
  { label: 'blue hour', from: 'evening blue hour start', to: 'evening blue hour end' },
  { label: 'civil dusk', from: 'civil dusk' },
  { label: 'nautical dusk', from: 'nautical dusk' },
  { label: 'astronomical dusk', from: 'astronomical dusk' },
  { label: 'moonrise', from: 'moonrise' },
  { label: 'moon transit', from: 'moon transit' },
  { label: 'moonset', from: 'moonset' },
  { label: 'low water', from: 'low water' },
  { label: 'high water', from: 'high water' },
];

const aimed: ReadonlySet<string> = new Set([
  'sunrise',
  'sunset',
  'solar noon',
  'sun clears skyline',
  'sun leaves skyline',
  'moonrise',
  'moonset',
  'moon transit',
]);

/** The events of the plan's date in the order of the clock, and those that do not happen, with the reason. */
function dayText(at: SpotPlace): string {
  const sky = at.sky(0);
  const found: { readonly ms: number; readonly cells: readonly string[] }[] = [];
  const missing: { readonly label: string; readonly why: Never }[] = [];
  for (const { label, from, to } of rows) {
    if (from.includes('skyline') && at.skyline === undefined) continue;
    if (from.includes('water') && at.tides.length === 0) continue;
    const first = sky.event(from);
    const last = to === undefined ? undefined : sky.event(to);
    const ms = first.kind === 'at' ? first.instantMs : last?.kind === 'at' ? last.instantMs : undefined;
    if (ms === undefined) {
      if (first.kind === 'never') missing.push({ label, why: first });
      continue;
    }
    const cells = [label, spanText(first, last, at), aimed.has(from) ? aimText(from, ms, at) : ''];
    found.push({ ms, cells });
  }
  found.sort((a, b) => a.ms - b.ms);
  const noonMs = (sky.startMs + sky.endMs) / 2;
  const moon = moonPosition(noonMs, at.place);
  const next = nextPhase(noonMs);
  return paragraphs(
    table(
      ['event', 'time', 'where'],
      found.map(({ cells }) => cells),
    ),
    missingText(missing),
    figures([
      ['daylight', dayLength(at)],
      [
        'moon at noon',
        `${phaseName(moon.elongationDegrees)}, ${decimal(100 * moon.illuminatedFraction)} % lit; next ${next.phase} ${formatDate(at.clock.date(next.instantMs))} ${clockText(next.instantMs, at.clock)}`,
      ],
      ['zone', `${zoneText(at.clock, noonMs)}, ${zoneOrigin(at)}`],
    ]),
    'Rise and set: upper edge on a level horizon, mean refraction; twilights at −6°, −12°, −18° (U.S. Naval Observatory). Blue hour −6° to −4°, golden hour −4° to +6°: common practice, no source.',
  );
}

type Never = Sighting & { readonly kind: 'never' };

/**
 * What does not happen, and why. Where a body stays on one side of several heights all day, the height nearest to it says
 * all: a sun that stays above the horizon stays above −18° too.
 */
function missingText(
  missing: readonly { readonly label: string; readonly why: Never }[],
): string | undefined {
  const groups = new Map<string, { readonly labels: Set<string>; why: Never }>();
  for (const { label, why } of missing) {
    const { body, stays } = why.facts;
    const key = stays === 'above' || stays === 'below' ? `${body} ${stays}` : why.reason;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { labels: new Set([label]), why });
    else {
      group.labels.add(label);
      if (saysMore(why, group.why)) group.why = why;
    }
  }
  const parts = [...groups.values()].map(({ labels, why }) => `no ${[...labels].join(', ')}: ${why.reason}`);
  return parts.length === 0 ? undefined : `${parts.join('; ')}.`;
}

/** Whether to stay on that side of one height is the stronger statement. */
function saysMore({ facts: one }: Never, { facts: other }: Never): boolean {
  const difference = Number(one.thresholdDegrees) - Number(other.thresholdDegrees);
  return one.stays === 'above' ? difference > 0 : difference < 0;
}

/** `05:38`, `05:38 – 05:52`; where the end does not happen, as on a day that stays blue, `from 09:36`. */
function spanText(first: Sighting, last: Sighting | undefined, at: SpotPlace): string {
  if (last === undefined) return timesText(first, at);
  if (last.kind === 'never') return `from ${timesText(first, at)}`;
  return first.kind === 'never'
    ? `until ${timesText(last, at)}`
    : `${timesText(first, at)} – ${timesText(last, at)}`;
}

function timesText(sighting: Sighting, at: SpotPlace): string {
  if (sighting.kind === 'never') return '';
  return [sighting.instantMs, ...sighting.others].map((ms) => clockText(ms, at.clock)).join(', ');
}

function aimText(event: EventName, ms: number, at: SpotPlace): string {
  const body = event.startsWith('moon') ? moonPosition(ms, at.place) : sunPosition(ms, at.place);
  const high = event === 'solar noon' || event === 'moon transit' || event.includes('skyline');
  return `${bearingText(body.azimuthDegrees)}${high ? `, ${altitudeText(body.apparentAltitudeDegrees, 1)}` : ''}`;
}

function dayLength(at: SpotPlace): string | undefined {
  const sky = at.sky(0);
  const rise = sky.event('sunrise');
  const set = sky.event('sunset');
  if (rise.kind === 'at' && set.kind === 'at' && set.instantMs > rise.instantMs) {
    const [from, to] = [rise, set].map(({ instantMs }) => clockText(instantMs, at.clock));
    return `sun ${from} – ${to}, ${formatDuration((set.instantMs - rise.instantMs) / 1000)}`;
  }
  const { lowestDegrees, highestDegrees } = sky.sunRange();
  if (lowestDegrees > sunUpDegrees) return 'the sun does not set';
  return highestDegrees < sunUpDegrees ? 'the sun does not rise' : undefined;
}
