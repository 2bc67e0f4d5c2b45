import { timeText } from '../exposure/time-text.ts';
import { formatDuration } from '../quantities/duration.ts';
import { formatStops } from '../quantities/stops.ts';

/** Numbers for people. A minus is U+2212; nothing here depends on a locale. */

/** A number to so many digits behind the point: `−1.2`. Never `−0.0`. */
export function decimal(value: number, digits = 0): string {
  const text = value.toFixed(digits);
  return Number(text) === 0 ? text.replace('-', '') : text.replace('-', '−');
}

/** The same with its sign: `+12`, `−1.2`, `0`. */
export function signed(value: number, digits = 0): string {
  const text = decimal(value, digits);
  return Number(value.toFixed(digits)) > 0 ? `+${text}` : text;
}

/** A direction on the compass in three figures, `098°`; with digits behind the point `098.4°`. */
export function bearingText(degrees: number, digits = 0): string {
  const turned = ((degrees % 360) + 360) % 360;
  const text = turned.toFixed(digits);
  const whole = Number(text) >= 360 ? (0).toFixed(digits) : text;
  return `${whole.padStart(digits === 0 ? 3 : 4 + digits, '0')}°`;
}

/** A height above the horizon with its sign: `+12°`, `−4.2°`. */
export function altitudeText(degrees: number, digits = 0): string {
  return `${signed(degrees, digits)}°`;
}

/** A spread: `± 1/3 stop`, `± 0.1 stop`, `± 0.4 stop`; undefined where there is none. Less than a tenth is a tenth. */
export function spreadText(stops: number): string | undefined {
  if (stops < 0.005) return undefined;
  return stops < 0.15 ? '± 0.1 stop' : `± ${formatStops(stops)}`;
}

/** A difference in stops with its sign, to a tenth: `+0.4 stop`, `−1.2 stops`. */
export function stopsDifference(stops: number, digits = 1): string {
  return `${signed(stops, digits)} ${Math.abs(stops) <= 1 ? 'stop' : 'stops'}`;
}

/** A length of time, to the second: `25 s`, `1 h 20 min`; below ten seconds to a tenth, `1/16 s`, `0.3 s`, `4.2 s`. */
export function lastingText(seconds: number): string {
  if (seconds >= 10) return formatDuration(seconds);
  return seconds < 0.3 ? timeText(seconds) : `${Number(seconds.toFixed(1))} s`;
}

/** Metres below a kilometre, kilometres beyond. */
export function distanceText(metres: number): string {
  if (!Number.isFinite(metres)) return 'infinity';
  if (metres < 10) return `${decimal(metres, 2)} m`;
  if (metres < 100) return `${decimal(metres, 1)} m`;
  return metres < 1000 ? `${decimal(metres)} m` : `${decimal(metres / 1000, metres < 10_000 ? 2 : 1)} km`;
}

/** `18 min to spare`, `25 min late`, `just in time`. */
export function slackText(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  if (minutes === 0) return 'just in time';
  return minutes > 0 ? `${formatDuration(minutes * 60)} to spare` : `${formatDuration(-minutes * 60)} late`;
}

/** Three figures that count. */
export function threeFigures(value: number): string {
  if (!Number.isFinite(value) || value === 0) return signed(value);
  const digits = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value))));
  return digits > 0 ? decimal(value, Math.min(digits, 6)) : String(Number(value.toPrecision(3)));
}
