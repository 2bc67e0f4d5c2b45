import { luminance } from '../../exposure/apex.ts';
import { coordinates } from '../../quantities/coordinates.ts';
import { length } from '../../quantities/length.ts';
import type { Quantity } from '../../quantities/quantity.ts';
import { beaufort, speed } from '../../quantities/speed.ts';
import { exposureValue } from '../../quantities/stops.ts';
import { temperature } from '../../quantities/temperature.ts';
import { figures, paragraphs } from '../markdown.ts';
import { decimal, threeFigures } from '../numbers.ts';
import type { HoverKind } from './scene.ts';
import { coordinateForms } from './sky.ts';

type Rows = readonly (readonly [string, string])[];

/** A value in the units that other sources use: a forecast in knots, a map in feet. */
export const unitsHover: HoverKind = ({ mark }) => {
  if (mark.value === undefined || mark.quantity === undefined) return undefined;
  const rows = rowsOf(mark.quantity, mark.value.value);
  return rows === undefined ? undefined : paragraphs(figures(rows), mark.field.doc);
};

function rowsOf(quantity: Quantity<unknown>, value: unknown): Rows | undefined {
  if (is(quantity, speed)) return speedRows(value as number);
  if (is(quantity, temperature)) return temperatureRows(value as number);
  if (is(quantity, length)) return lengthRows(value as number);
  if (is(quantity, coordinates)) return coordinateForms(value as { latitude: number; longitude: number });
  if (is(quantity, exposureValue)) return exposureRows(value as number);
  return undefined;
}

function is(quantity: Quantity<unknown>, kind: object): boolean {
  return quantity === kind;
}

/** Exact: 1 kn is 1852 m/h, 1 mph is 1609.344 m/h. */
function speedRows(metresPerSecond: number): Rows {
  const metresPerHour = metresPerSecond * 3600;
  return [
    ['m/s', decimal(metresPerSecond, 1)],
    ['km/h', decimal(metresPerHour / 1000, 1)],
    ['mph', decimal(metresPerHour / 1609.344, 1)],
    ['kn', decimal(metresPerHour / 1852, 1)],
    ['Beaufort', `${beaufort(metresPerSecond)} (as a wind, WMO-No. 306)`],
  ];
}

function temperatureRows(celsius: number): Rows {
  return [
    ['°C', decimal(celsius, 1)],
    ['°F', `\`${decimal(celsius, 1)} × 9/5 + 32\` = ${decimal((celsius * 9) / 5 + 32, 1)}`],
  ];
}

/** Exact: 1 ft is 0.3048 m. */
function lengthRows(metres: number): Rows | undefined {
  if (!Number.isFinite(metres)) return undefined;
  return [
    ['m', threeOrWhole(metres)],
    ['ft', threeOrWhole(metres / 0.3048)],
  ];
}

function threeOrWhole(value: number): string {
  return Math.abs(value) >= 100 ? decimal(value) : threeFigures(value);
}

function exposureRows(ev100: number): Rows {
  return [
    [
      'luminance',
      `\`2^${decimal(ev100, 2)} × 12.5 / 100\` = ${threeFigures(luminance(ev100))} cd/m² (ISO 2720, K = 12.5)`,
    ],
  ];
}
