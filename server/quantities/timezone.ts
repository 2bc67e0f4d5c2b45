import { nearest } from './nearest.ts';
import { type Quantity, type Reading, read, refused, type Suggestion } from './quantity.ts';
import { shortened } from './scan.ts';

const examples = ['Europe/London', 'Europe/Oslo', 'America/Halifax', 'Australia/Hobart', 'UTC'];

/** Zones that run times accept and do not always list. */
const UNLISTED = ['UTC', 'Europe/Kyiv', 'Asia/Kolkata', 'America/Coyhaique'];

const MOST_SUGGESTIONS = 50;

/**
 * A zone of the IANA time zone database, as the author spelt it. A zone is valid when the run time knows it, listed or
 * not. Offsets and abbreviations are refused whether or not the run time takes them: `+01:00` has no summer time, and
 * `EST` has changed its meaning between versions of the database.
 */
export const timezone: Quantity<string> = {
  name: 'time zone',
  documentation:
    'The time zone by its name in the IANA database; found from the coordinates when left out.\n\n`Europe/London`, `UTC`.',
  examples,
  recognise: (text) => text.length <= 60 && /^\s*(utc|gmt|[a-z_]+\/[a-z0-9_/+-]+)\s*$/i.test(text),
  parse(text) {
    const name = text.trim();
    if (name === '') return refused(text, 'A time zone is missing. Write a name such as Europe/London.');
    return offsetRefused(text, name) ?? abbreviationRefused(text, name) ?? byName(text, name);
  },
  format: (zone) => zone,
  complete(typed) {
    const wanted = comparable(typed);
    if (wanted === '') return examples.map((text) => ({ text }));
    const fitting = knownZones().filter((zone) => {
      const known = comparable(zone);
      return known.startsWith(wanted) || known.includes(`/${wanted}`);
    });
    return fitting.slice(0, MOST_SUGGESTIONS).map((text): Suggestion => ({ text }));
  },
};

function byName(text: string, name: string): Reading<string> {
  if (name.length <= 60 && isKnown(name)) return inverted(text, name) ?? read(name);
  const zones = knownZones();
  const wanted = comparable(name);
  const near =
    zones.find((zone) => comparable(zone) === wanted) ??
    zones.find((zone) => comparable(zone).endsWith(`/${wanted}`)) ??
    nearest(name, zones);
  const hint = near === undefined ? 'Write a name such as Europe/London.' : `Is ${near} meant?`;
  return refused(text, `“${shortened(name)}” is no time zone that is known here. ${hint}`, {
    code: 'plan/unknown-zone',
    ...(near === undefined ? {} : { rewrite: near }),
  });
}

function isKnown(zone: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: zone }) !== undefined;
  } catch {
    return false;
  }
}

function knownZones(): readonly string[] {
  return [...new Set([...Intl.supportedValuesOf('timeZone'), ...UNLISTED])].sort();
}

/** In lower case, with blanks as the database has them. */
function comparable(zone: string): string {
  return zone
    .slice(0, 60)
    .trim()
    .replace(/\s*\/\s*/g, '/')
    .replace(/[\s-]+/g, '_')
    .toLowerCase();
}

/** `+01:00`, `GMT+1`, `UTC-5`. */
function offsetRefused(text: string, name: string): Reading<never> | undefined {
  if (name.length > 20 || !/^(utc|gmt|z)?\s*[-+−]\s*\d[\d:.]*$/iu.test(name)) return undefined;
  const message = `“${shortened(name)}” is an offset, which knows no summer time. Write the name of the zone, such as Europe/London.`;
  return refused(text, message, { code: 'plan/unknown-zone' });
}

/** `CET`, `EST`, `PST8PDT`: capitals without a place; UTC and GMT are zones in their own right. */
function abbreviationRefused(text: string, name: string): Reading<never> | undefined {
  if (/^(UTC|GMT)$/i.test(name) || !/^[A-Z]{2,5}(\d[A-Z]{3})?$/.test(name)) return undefined;
  const message = `“${name}” is an abbreviation, which more than one zone uses. Write the name of the zone, such as Europe/London.`;
  return refused(text, message, { code: 'plan/unknown-zone' });
}

/** In the database, `Etc/GMT+1` is one hour behind UTC. Few who write it mean that. */
function inverted(text: string, name: string): Reading<string> | undefined {
  const match = /^etc\/gmt([+-])(\d{1,2})$/i.exec(name);
  if (match === null || match[2] === '0') return undefined;
  const side = match[1] === '+' ? 'behind' : 'ahead of';
  const message = `${name} is ${match[2]} h ${side} UTC: in these names the sign is reversed.`;
  const span = { start: 0, end: text.length };
  return read(name, [{ code: 'plan/ambiguous-value', severity: 'warning', message, span }]);
}
