/**
 * A time as photographers write it: "1/125 s", "1/2 s", "17.1 s", "1 min 34 s", "1 h 20 min". Three figures below a
 * minute, whole seconds above, whole minutes from ten hours.
 */
export function timeText(seconds: number): string {
  if (!Number.isFinite(seconds)) return seconds > 0 ? 'forever' : 'unknown';
  if (seconds <= 0) return '0 s';
  if (seconds < 0.3) return `1/${Math.round(1 / seconds)} s`;
  if (Math.abs(seconds - 0.5) < 5e-4) return '1/2 s';
  if (seconds < 59.95) return `${Number(seconds.toPrecision(3))} s`;
  if (seconds >= 36_000) return minutesText(Math.round(seconds / 60));
  const whole = Math.round(seconds);
  const rest = whole % 60;
  const minutes = minutesText((whole - rest) / 60);
  return rest === 0 ? minutes : `${minutes} ${rest} s`;
}

function minutesText(minutes: number): string {
  const rest = minutes % 60;
  const hours = (minutes - rest) / 60;
  if (hours === 0) return `${rest} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}

/** A difference in stops to two places, with its sign: "+0.33", "−2", "0". */
export function stopsText(stops: number): string {
  const rounded = Math.round(stops * 100) / 100;
  if (rounded === 0) return '0';
  return rounded > 0 ? `+${rounded}` : `−${-rounded}`;
}
