import { type Analysis, analyse, type Opened } from '../../server/analysis.ts';

/** Where the invented plan and kit of these tests live. */
export const planUri = 'file:///outing/plans/hallin.shootplan.yaml';
export const kitUri = 'file:///outing/kit/field-bag.shootkit.yaml';

export const demoKit = `kit: Field bag
bodies:
  - id: main
    sensor: 36 x 24 mm
    pixels: 8256 x 5504
    shutter: 1/8000 s .. 30 s
    dial: 1/3 stop
    bulb: up to 30 min
    range: 12 stops
    finder: optical
    battery: 150 min
film:
  - { id: slide-50, iso: 50, reciprocity: { exponent: 1.31, beyond: 1 s } }
lenses:
  - { id: wide, focal: 16-35 mm, aperture: f/4 .. f/22, thread: 77 mm }
filters:
  - { id: nd6, kind: neutral density, strength: 6 stops, thread: 77 mm }
  - { id: nd6m, kind: neutral density, strength: 6 stops, measured: 6.4 stops, thread: 77 mm }
  - { id: pol, kind: polarizer, loss: 1.5 stops, thread: 77 mm }
`;

/** The reservoirs at dawn: an invented place in the north of England on the day of the equinox of 2027. */
export const demoPlan = `plan: Dawn on the Hallin reservoirs
date: 2027-03-20
kit: ../kit/field-bag.shootkit.yaml
start: { from: "54.395, -2.640", leave: sunrise - 100 min }
spots:
  - id: north-steps
    name: North steps
    at: 54.4301, -2.6102
    skyline: { E: 1°, SE: 2°, S: 4° }
    drive: 35 min
    walk: { distance: 600 m, climb: 40 m }
    arrive: sunrise - 45 min
    setup: 10 min
    shots:
      - id: mirror
        effect: mirror
        facing: 118°
        tilt: -3°
        lens: wide @ 24 mm
        aperture: f/14
        iso: 64
        metered: 1/2 s
        filters: [nd6]
        start: sunrise + 10 min
        frames: 2
      - id: strands
        subject: { at: "54.4270, -2.6050", height: 34 m }
        lens: wide @ 24 mm
        aperture: f/14
        iso: 64
        metered: 1/2 s
        filters: [nd6m]
`;

/** Analyses a text as a plan; the demo kit is at hand unless another text is given for it. */
export function analysePlan(text: string, kit: string = demoKit): Analysis {
  const open = (uri: string): Opened =>
    uri === kitUri ? { kind: 'text', uri, text: kit } : { kind: 'missing' };
  return analyse({ uri: planUri, text }, { rules: [], open });
}

/** Analyses a text as a kit. */
export function analyseKit(text: string): Analysis {
  return analyse({ uri: kitUri, text }, { rules: [] });
}
