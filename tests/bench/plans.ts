/** A kit for plans of any size. */
export const benchKit = `kit: Field bag
bodies:
  - { id: main, sensor: 36 x 24 mm, pixels: 8256 x 5504, shutter: 1/8000 s .. 30 s, dial: 1/3 stop, bulb: up to 30 min, range: 12 stops, finder: electronic }
lenses:
  - { id: wide, focal: 16-35 mm, aperture: f/4 .. f/22, thread: 77 mm }
  - { id: tele, focal: 70-200 mm, aperture: f/4 .. f/32, thread: 77 mm }
filters:
  - { id: nd3, kind: neutral density, strength: 3 stops, thread: 77 mm }
  - { id: nd6, kind: neutral density, strength: 6 stops, measured: 6.4 stops, thread: 77 mm }
  - { id: pol, kind: polarizer, loss: 1.5 stops, thread: 77 mm }
tripod: { height: 1.75 m }
carried: [remote release, headlamp]
`;

const shotsAtOneSpot = 4;

/** A meter reading of the plan, as it stands there. */
export const reading = /metered: 1\/[\d.]+ s/g;

/** A reading for an edit; the numbers that follow each other are all different, as in a plan that is really edited. */
export function readingOf(number: number): string {
  return `1/${(30 + number / 16).toFixed(2)} s`;
}

/**
 * A plan with so many shots, four at each spot, the spots side by side in a valley. At each spot one shot misses its
 * effect, so that ways to it are looked for, one has a scene of wide range and one a subject; every other spot has one
 * without a reading. The same text on every machine.
 */
export function benchPlan(shots: number): string {
  const spots = Math.ceil(shots / shotsAtOneSpot);
  const lines = [
    `plan: ${shots} shots on the Hallin reservoirs`,
    'date: 2027-03-20',
    'kit: field-bag.shootkit.yaml',
    'party: { people: 2, contact: told, back-by: 22:00 }',
    'start: { from: "54.3950, -2.6400", leave: sunrise - 100 min }',
    'forecast:',
    '  issued: 2027-03-19 18:00',
    '  hours:',
    ...[5, 8, 11, 14, 17].map(
      (hour) =>
        `    - { at: ${String(hour).padStart(2, '0')}:00, cloud: 40 %, wind: 6 km/h, air: 8 °C, dew-point: 2 °C }`,
    ),
    'spots:',
  ];
  for (let spot = 0; spot < spots; spot += 1) {
    const latitude = (54.4 + (spot % 50) * 0.0021).toFixed(4);
    const longitude = (-2.6 + Math.floor(spot / 50) * 0.0031).toFixed(4);
    lines.push(
      `  - id: spot-${spot}`,
      `    name: Spot ${spot} by the water`,
      `    at: ${latitude}, ${longitude}`,
      `    elevation: ${200 + (spot % 80)} m`,
      '    skyline: { E: 6°, SE: 9°, S: 4° }',
      ...(spot === 0 ? ['    arrive: sunrise - 45 min'] : ['    drive: 5 min']),
      '    walk: { distance: 600 m, climb: 40 m }',
      '    setup: 10 min',
      '    permission: granted',
      '    water: { kind: cascade, state: running }',
      '    needs: [wind < 20 km/h]',
      '    shots:',
    );
    for (let at = 0; at < shotsAtOneSpot && spot * shotsAtOneSpot + at < shots; at += 1) {
      lines.push(
        `      - id: shot-${spot}-${at}`,
        `        effect: ${at === 3 ? 'mist' : 'silky'}`,
        `        facing: ${(200 + 37 * (spot + at)) % 360}°      # as the water runs`,
        '        tilt: -25°',
        `        lens: wide @ ${[16, 24, 28, 35][at]} mm`,
        '        aperture: f/11',
        '        iso: 64',
        ...(at === 0 && spot % 2 === 1 ? [] : [`        metered: ${['1/30', '1/60', '1/30', '1/15'][at]} s`]),
        `        filters: [${['nd6', 'nd6, nd3', 'nd6, pol', 'nd6'][at]}]`,
        ...(at === 1 ? ['        scene: { sky: EV 14, foreground: EV 10, horizon: broken }'] : []),
        ...(at === 2
          ? [
              `        subject: { at: "${(Number(latitude) + 0.003).toFixed(4)}, ${longitude}", height: 30 m }`,
            ]
          : []),
      );
    }
  }
  return `${lines.join('\n')}\n`;
}
