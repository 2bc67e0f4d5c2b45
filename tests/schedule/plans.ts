import { type Analysis, analyse } from '../../server/analysis.ts';
import type { Resolution } from '../../server/schedule/moments.ts';

/** A plan for one spot: its head, the lines of the spot, the shots one a line. */
export interface PlanParts {
  readonly date?: string;
  readonly zone?: string;
  readonly at?: string;
  /** Further lines at the top level. */
  readonly head?: readonly string[];
  /** Lines of the spot, such as `arrive: 06:00`. */
  readonly spot?: readonly string[];
  /** Each the inside of a flow mapping. */
  readonly shots?: readonly string[];
}

export const kit = [
  'kit:',
  '  bodies:',
  '    - { id: main, sensor: 36 x 24 mm, shutter: 1/8000 s .. 30 s, dial: 1/3 stop, bulb: up to 30 min }',
  '    - { id: slow, sensor: 36 x 24 mm, shutter: 1/8000 s .. 30 s, dial: 1/3 stop, bulb: up to 30 min, noise-reduction: on }',
  '    - { id: folding, sensor: 70 x 56 mm, shutter: 1/500 s .. 1 s, dial: 1 stop, bulb: up to 60 min, film: yes }',
  '  film:',
  '    - { id: slide, iso: 50, reciprocity: { exponent: 1.31, beyond: 1 s } }',
  '    - { id: sheet, iso: 100, reciprocity: { table: [{ metered: 1 s, corrected: 2 s }, { metered: 10 s, corrected: 50 s }] } }',
  '  lenses: [{ id: wide, focal: 16-35 mm, aperture: f/4 .. f/22 }]',
  '  filters:',
  '    - { id: nd6, kind: neutral density, strength: 6 stops }',
  '    - { id: nd6m, kind: neutral density, strength: 6 stops, measured: 6.4 stops }',
  '    - { id: pol, kind: polarizer, loss: 1.5 stops }',
  '    - { id: grad2, kind: graduated, strength: 2 stops }',
];

export function planText(parts: PlanParts): string {
  const {
    date = '2027-03-20',
    zone = 'Europe/London',
    at = '54.43, -2.61',
    head = [],
    spot = [],
    shots = [],
  } = parts;
  return [
    'plan: P',
    `date: ${date}`,
    ...(zone === '' ? [] : [`timezone: ${zone}`]),
    ...head,
    ...kit,
    'spots:',
    '  - id: spot',
    `    at: ${at}`,
    ...spot.map((line) => `    ${line}`),
    ...(shots.length === 0 ? [] : ['    shots:', ...shots.map((shot) => `      - { ${shot} }`)]),
    '',
  ].join('\n');
}

/** A text on its date, without rules. */
export function dayOf(text: string): NonNullable<Analysis['day']> {
  const { day } = analyse({ uri: 'file:///day/test.shootplan.yaml', text }, { rules: [] });
  if (day === undefined) throw new Error('No day.');
  return day;
}

/** What one moment comes to as the arrival at the only spot. */
export function resolved(moment: string, parts: PlanParts = {}): Resolution {
  const { moments } = dayOf(planText({ ...parts, spot: [`arrive: ${moment}`] }));
  const found = moments.find(({ name }) => name === 'arrive');
  if (found === undefined) throw new Error('No arrival.');
  return found.resolution;
}

/** The instant in UTC, as `2027-03-20T06:00:00Z`; what failed, by its name. */
export function instant(resolution: Resolution): string {
  if (resolution.kind === 'at') return new Date(resolution.instantMs).toISOString().replace('.000Z', 'Z');
  return resolution.kind === 'failed' ? resolution.failure : resolution.kind;
}

export function utc(ms: number | undefined): string | undefined {
  return ms === undefined
    ? undefined
    : instant({ kind: 'at', instantMs: Math.round(ms / 1000) * 1000, notes: [] });
}
