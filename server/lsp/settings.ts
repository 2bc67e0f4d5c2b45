import { numberWritten, type Settings } from '../analysis.ts';
import { thresholds } from '../schedule/thresholds.ts';
import type { Severity } from '../text/finding.ts';

/** Which hints are shown. */
export interface HintSettings {
  readonly moments: boolean;
  readonly shutter: boolean;
  readonly light: boolean;
}

export interface ServerSettings extends Settings {
  readonly hints: HintSettings;
}

export const defaultSettings: ServerSettings = {
  hints: { moments: true, shutter: true, light: true },
  checks: new Map(),
  thresholds: new Map(),
};

const severities: ReadonlySet<unknown> = new Set(['error', 'warning', 'hint', 'off']);
const thresholdNames: ReadonlySet<string> = new Set(thresholds.map(({ name }) => name));

/**
 * The settings as the client sends them: `{ hints, checks, thresholds }`. What is not valid is left out, and said
 * through `complain`. Null and undefined mean that nothing is set.
 */
export function readSettings(
  sent: unknown,
  codes: ReadonlySet<string>,
  complain: (message: string) => void,
): ServerSettings {
  if (sent === null || sent === undefined) return defaultSettings;
  const entries = entriesOf(sent, 'shootPlan', complain);
  return {
    hints: hintsIn(entries.get('hints'), complain),
    checks: checksIn(entries.get('checks'), codes, complain),
    thresholds: thresholdsIn(entries.get('thresholds'), complain),
  };
}

function hintsIn(sent: unknown, complain: (message: string) => void): HintSettings {
  const entries = entriesOf(sent, 'shootPlan.hints', complain);
  const flag = (name: keyof HintSettings): boolean => {
    const value = entries.get(name) ?? defaultSettings.hints[name];
    if (typeof value === 'boolean') return value;
    complain(`The setting shootPlan.hints.${name} is neither true nor false.`);
    return defaultSettings.hints[name];
  };
  return { moments: flag('moments'), shutter: flag('shutter'), light: flag('light') };
}

function checksIn(
  sent: unknown,
  codes: ReadonlySet<string>,
  complain: (message: string) => void,
): ReadonlyMap<string, Severity | 'off'> {
  const checks = new Map<string, Severity | 'off'>();
  for (const [code, severity] of entriesOf(sent, 'shootPlan.checks', complain)) {
    if (!codes.has(code)) complain(`The setting shootPlan.checks names an unknown finding: ${code}.`);
    else if (!severities.has(severity))
      complain(`The setting shootPlan.checks for ${code} is none of off, hint, warning and error.`);
    else checks.set(code, severity as Severity | 'off');
  }
  return checks;
}

function thresholdsIn(sent: unknown, complain: (message: string) => void): ReadonlyMap<string, number> {
  const numbers = new Map<string, number>();
  for (const [name, value] of entriesOf(sent, 'shootPlan.thresholds', complain)) {
    const number = typeof value === 'string' ? numberWritten(value) : value;
    if (!thresholdNames.has(name))
      complain(`The setting shootPlan.thresholds names an unknown threshold: ${name}.`);
    else if (typeof number !== 'number' || !Number.isFinite(number))
      complain(`The setting shootPlan.thresholds for ${name} is not a number.`);
    else numbers.set(name, number);
  }
  return numbers;
}

/** The own entries of an object; none of anything else. */
function entriesOf(
  sent: unknown,
  name: string,
  complain: (message: string) => void,
): ReadonlyMap<string, unknown> {
  if (sent === undefined || sent === null) return new Map();
  if (typeof sent === 'object' && !Array.isArray(sent)) return new Map(Object.entries(sent));
  complain(`The setting ${name} is not an object.`);
  return new Map();
}
