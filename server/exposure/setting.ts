import { stopsBetween } from './apex.ts';
import type { Dial } from './dial.ts';
import { timeText } from './time-text.ts';

/** What is set on the body for one frame. */
export type ShutterSetting = DialSetting | BulbSetting;

/** A position of the dial. */
export interface DialSetting {
  readonly kind: 'dial';
  /** "30 s", as marked */
  readonly label: string;
  /** The time that the shutter really keeps: 32 s at "30 s". */
  readonly seconds: number;
  /** The time that the marking names: 30 s. */
  readonly nominalSeconds: number;
  /** How many stops more than wanted the frame gets; negative: less. */
  readonly residualStops: number;
  /** `within` unless the dial ends more than half a step before the wanted time. */
  readonly reach: 'within' | 'longer' | 'shorter';
}

/** A time that is kept by hand or by a remote release. */
export interface BulbSetting {
  readonly kind: 'bulb';
  /** Whole seconds. */
  readonly seconds: number;
  /** "1 min 34 s" */
  readonly text: string;
  /** As for the dial: what rounding to whole seconds leaves. */
  readonly residualStops: number;
  /** How many stops the wanted time lies beyond the longest position of the dial. */
  readonly beyondStops: number;
  /** How many stops it lies beyond the longest bulb exposure of the body, where that is stated and passed. */
  readonly overLimitStops?: number;
}

/** How long the body keeps its shutter open by bulb; `none` for a body without bulb, nothing stated for no limit. */
export type Bulb = { readonly longestSeconds: number } | 'none' | undefined;

/**
 * The setting for a wanted time: the nearest position of the dial; beyond its longest position by more than half a step,
 * bulb in whole seconds.
 */
export function shutterSetting(wantedSeconds: number, dial: Dial, bulb?: Bulb): ShutterSetting {
  const { label, seconds, nominalSeconds, errorStops, reach } = dial.nearest(wantedSeconds);
  if (reach !== 'longer' || bulb === 'none') {
    return { kind: 'dial', label: `${label} s`, seconds, nominalSeconds, residualStops: errorStops, reach };
  }
  const whole = Math.max(Math.round(wantedSeconds), 1);
  const overLimit = bulb ? stopsBetween(bulb.longestSeconds, whole) : 0;
  return {
    kind: 'bulb',
    seconds: whole,
    text: timeText(whole),
    residualStops: stopsBetween(wantedSeconds, whole),
    beyondStops: stopsBetween(dial.longest.seconds, wantedSeconds),
    ...(overLimit > 0 && { overLimitStops: overLimit }),
  };
}

/** How far the wanted time lies beyond what the body can hold its shutter open, in stops; 0 when it can. */
export function beyondBodyStops(setting: ShutterSetting): number {
  if (setting.kind === 'bulb') return setting.overLimitStops ?? 0;
  return setting.reach === 'longer' ? -setting.residualStops : 0;
}
