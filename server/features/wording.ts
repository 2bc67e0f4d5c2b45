import type { ShutterSetting } from '../exposure/setting.ts';
import type { CivilDate } from '../quantities/date.ts';
import { civilMs } from '../sky/civil.ts';
import type { ZoneClock } from '../sky/zones.ts';
import { offsetText } from './localTime.ts';
import { code } from './markdown.ts';

/** The caution that stands wherever the sun is in the frame. */
export const sunCaution =
  'Never look at the sun through an optical finder; a dark filter is no eye protection.';

/** What is set on the body, as short as it is clear: `30 s`, `42 s bulb`. */
export function settingText(setting: ShutterSetting): string {
  return setting.kind === 'bulb' ? `${setting.text} bulb` : setting.label;
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
