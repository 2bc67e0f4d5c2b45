/**
 * A small outing for the editors to open. 1/2 s through a filter of 6 stops is 1/2 · 2^6 = 32 s: the definition
 * of a stop, a doubling of the light (ISO 2720 counts exposure so).
 */
export const dawnPlan = `plan: Dawn on the Hallin reservoirs
date: 2027-03-20
kit: kit/bag.shootkit.yaml
spots:
  - id: north-steps
    at: 54.4301, -2.6102
    arrive: sunrise - 45 min
    shots:
      - id: mirror
        effect: mirror
        facing: 118°
        lens: wide @ 24 mm
        aperture: f/14
        iso: 64
        metered: 1/2 s
        filters: [nd6]
        start: sunrise + 10 min
`;

export const dawnKit = `kit: Bag
bodies:
  - id: main
    sensor: 36 x 24 mm
    shutter: 1/8000 s .. 30 s
    bulb: up to 30 min
lenses:
  - { id: wide, focal: 16-35 mm, aperture: f/4 .. f/22, thread: 77 mm }
filters:
  - { id: nd6, kind: neutral density, strength: 6 stops, thread: 77 mm }
`;

export const dawnFiles = { 'dawn.shootplan.yaml': dawnPlan, 'kit/bag.shootkit.yaml': dawnKit };

/** Where in the plan, counted from 1. */
export const lineOf = (text: string): number =>
  dawnPlan.split('\n').findIndex((line) => line.includes(text)) + 1;
