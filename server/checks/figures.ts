import type { ShutterSetting } from '../exposure/setting.ts';
import { formatShutter } from '../quantities/shutter.ts';
import type { DayShot } from '../schedule/day.ts';
import type { Gear } from '../schedule/gear.ts';
import type { Place } from '../text/span.ts';
import { headOf } from './related.ts';

/** What is set on the body: `30 s`, `1 min 34 s`. */
export function settingName(setting: ShutterSetting): string {
  return setting.kind === 'bulb' ? setting.text : setting.label;
}

/** A wanted time as the body names it: the marking of its dial next to it, else to the figures of a time. */
export function askedTime(seconds: number, { dial }: Gear): string {
  const near = dial.nearest(seconds);
  return near.reach === 'within' ? `${near.label} s` : formatShutter(seconds);
}

/** To so many digits, without trailing noughts, with a true minus. */
export function figure(value: number, digits = 0): string {
  return String(Number(value.toFixed(digits)) + 0).replace('-', '−');
}

/** A distance for people: `0.8 m`, `1.8 m`, `24 m`, `infinity`. */
export function metres(value: number): string {
  if (!Number.isFinite(value)) return 'infinity';
  return value < 10 ? `${figure(value, value < 1 ? 2 : 1)} m` : `${Math.round(value)} m`;
}

/** A direction on the compass: `098°`. */
export function compass(degrees: number): string {
  return `${String(((Math.round(degrees) % 360) + 360) % 360).padStart(3, '0')}°`;
}

/** `a cascade`, `the sea`. */
export function onWater(kind: string | undefined): string {
  if (kind === undefined) return '';
  return kind === 'sea' ? ' on the sea' : ` on a ${kind}`;
}

/** Where something about what is in the frame is shown: facing, else the subject or the lens, else the shot. */
export function framePlace({ shot }: DayShot): Place {
  return shot.facing ?? shot.subject?.at ?? shot.lens ?? headOf(shot);
}

/** Where something about the filters is shown: a filter, else the shot. */
export function startPlace({ shot }: DayShot): Place {
  return shot.start ?? headOf(shot);
}
