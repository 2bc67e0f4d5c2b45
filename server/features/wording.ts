import type { ShutterSetting } from '../exposure/setting.ts';
import type { CivilDate } from '../quantities/date.ts';
import { civilMs } from '../sky/civil.ts';
import type { ZoneClock } from '../sky/zones.ts';
import { offsetText } from './localTime.ts';
import { code } from './markdown.ts';
import { decimal } from './numbers.ts';

/** Less than this is not worth a word. */
const leastStops = 0.5;

/** The caution that stands wherever the sun is in the frame. */
export const sunCaution =
  'Never look at the sun through an optical finder; a dark filter is no eye protection.';

/** What is set on the body, as short as it is clear: `30 s`, `42 s bulb`. */
export function settingText(setting: ShutterSetting): string {
  return setting.kind === 'bulb' ? `${setting.text} bulb` : setting.label;
}

/** The same where it stands alone, with how far a body that ends there falls short: `30 s, 5.8 stops short`. */
export function reachedText(setting: ShutterSetting): string {
  const text = settingText(setting);
  if (setting.kind === 'bulb') {
    const { overLimitStops = 0 } = setting;
    return overLimitStops < leastStops
      ? text
      : `${text}, ${decimal(overLimitStops, 1)} stops beyond its limit`;
  }
  const off = Math.abs(setting.residualStops);
  if (setting.reach === 'within' || off < leastStops) return text;
  return `${text}, ${decimal(off, 1)} stops ${setting.reach === 'longer' ? 'short' : 'too long'}`;
}

/** `UTC+01:00 (Europe/London)`, as markdown. */
export function zoneText(clock: ZoneClock, instantMs: number): string {
  return `${offsetText(clock.offsetSeconds(instantMs))} (${code(clock.zone)})`;
}

const weekdays = ['Thursday', 'Friday', 'Saturday', 'Sunday', 'Monday', 'Tuesday', 'Wednesday'] as const;

/** The day of the week of a Gregorian date. The first day of 1970 was a Thursday. */
export function weekday(date: CivilDate): string {
  const days = Math.floor(civilMs(date) / 86_400_000);
  return weekdays[((days % 7) + 7) % 7] as string;
}
