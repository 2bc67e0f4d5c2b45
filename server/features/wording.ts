import type { ShutterSetting } from '../exposure/setting.ts';
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
