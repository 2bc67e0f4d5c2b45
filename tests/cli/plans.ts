/** An invented plan in which nothing is wrong that reading alone can tell, and its kit. */
export const clean = `plan: Dawn at the jetty
date: 2027-03-20
timezone: Europe/London
kit: ../kit/bag.shootkit.yaml
start: { from: "54.395, -2.640", leave: sunrise - 100 min }
spots:
  - id: jetty
    name: Old jetty
    at: 54.4301, -2.6102
    drive: 35 min
    walk: { time: 15 min }
    arrive: sunrise - 45 min
    setup: 10 min
    shots:
      - id: mirror
        facing: 118°
        tilt: -3°
        lens: wide @ 24 mm
        aperture: f/8
        iso: 100
        metered: 1/2 s
        filters: [nd6]
        start: sunrise + 10 min
        frames: 2
`;

export const bag = `kit: Bag
bodies:
  - { id: main, sensor: 36 x 24 mm, pixels: 8256 x 5504, shutter: 1/8000 s .. 30 s, bulb: up to 30 min }
lenses:
  - { id: wide, focal: 16-35 mm, aperture: f/4 .. f/22, thread: 77 mm }
filters:
  - { id: nd6, kind: neutral density, strength: 6 stops, measured: 6.4 stops, thread: 77 mm }
`;

/** One error, in line 2 from column 7 to before column 17. */
export const wrongDate = 'plan: A\ndate: 2027-13-45\n';
