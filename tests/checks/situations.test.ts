import { describe, expect, test } from 'vitest';
import { analysed, check, type KitParts, smallKit } from '../support/check.ts';
import { planWithShot } from '../support/plan.ts';

/**
 * Twelve small situations that a practised eye catches at once: what is said, and the number in it. Each is given as
 * few lines as it needs; the source of each number stands beside it.
 */

const plan = (shot: string, spot = '') => planWithShot(shot, { spot });

const body = (more: string) => [
  `{ id: main, sensor: 36 x 24 mm, pixels: 8372 x 5584, shutter: 1/8000 s .. 30 s, bulb: up to 240 min, ${more} }`,
];
const kit = (parts: KitParts) => ({ kit: smallKit(parts) });

test('an unlabelled 3.0 on a filter may be stops or density', () => {
  // Density 3.0 is 3 / log10(2) = 9.97 stops (ISO 5).
  const text = smallKit({ filters: ['{ id: dark, kind: neutral density, strength: 3.0 }'] });
  const found = analysed(text, { asKit: true }).findings;
  expect(found.map(({ code, severity }) => `${severity} ${code}`)).toEqual([
    'error filter/ambiguous-strength',
  ]);
  expect(found[0]?.message).toMatch(/3 stops.*OD 3|OD 3.*3 stops/);
});

describe('at dusk', () => {
  const dusk = (start: string, metered: string) =>
    plan(`        aperture: f/8
        metered: ${metered}
        filters: [nd10]
        start: ${start}
`);
  const dark = kit({
    bodies: body('range: 12 stops'),
    filters: ['{ id: nd10, kind: neutral density, strength: 10 stops }'],
  });

  test('an exposure needs half as long again', () => {
    // 1/4 s through ten stops is 256 s. Half as long again is log2(1.5) = 0.58 stops.
    const { findings } = analysed(dusk('sunset + 13 min', '1/4 s'), dark);
    const drift = findings.find(({ code }) => code === 'exposure/drift');
    expect(drift?.severity).toBe('hint');
    expect(drift?.facts.plainSeconds).toBeCloseTo(256, 6);
    const longer = (drift?.facts.driftSeconds as number) / 256;
    expect(longer).toBeGreaterThan(1.4);
    expect(longer).toBeLessThan(1.6);
    expect(drift?.message).toContain('fades');
  });

  test('a longer one never completes, and the latest start that does is given', () => {
    const { findings } = analysed(dusk('sunset + 25 min', '2 s'), dark);
    const never = findings.find(({ code }) => code === 'exposure/never-completes');
    expect(never?.severity).toBe('error');
    expect(never?.message).toMatch(/2048 s|34 min 8 s/);
    expect(never?.message).toMatch(/Start by \d\d:\d\d/);
    const latest = /Start by (\d\d:\d\d), where about .+ is expected, and meter again/.exec(
      never?.message ?? '',
    )?.[1] as string;
    // Earlier there is more light, and the meter says less time for the same amount of it.
    const evAt = (start: string) => {
      const shot = analysed(dusk(start, '2 s'), dark).day?.spots[0]?.shots[0];
      return shot?.light?.expected?.ev100 as number;
    };
    const codes = (start: string) => {
      const seconds = 2 * 2 ** (evAt('sunset + 25 min') - evAt(start));
      return analysed(dusk(start, `${seconds.toFixed(4)} s`), dark).findings.map(({ code }) => code);
    };
    expect(codes(latest)).not.toContain('exposure/never-completes');
    expect(codes(latest.replace(/\d\d$/, (minute) => String(Number(minute) + 2).padStart(2, '0')))).toContain(
      'exposure/never-completes',
    );
  });
});

test('a ridge of 400 m at 1.5 km hides the sun until about an hour and a half after sunrise', () => {
  // Its angle is atan(400 / 1500) = 14.9°. On the equinox the sun climbs at 15°/h · cos φ: 10.6°/h at latitude 45°.
  const text = plan(
    `        facing: 95°
        lens: wide @ 24 mm
        start: sunrise + 20 min
`,
    '    skyline: { N: 14.9° }\n',
  )
    .replace('54.4301, -2.6102', '45.0000, 6.0000')
    .replace('Europe/London', 'Europe/Paris');
  const { findings, day } = analysed(text);
  const hidden = findings.find(({ code }) => code === 'light/behind-skyline');
  expect(hidden?.severity).toBe('warning');
  expect(hidden?.message).toContain('behind a skyline of 14.9°');
  const sunrise = day?.spots[0]?.at?.sky(0).event('sunrise');
  const rose = sunrise?.kind === 'at' ? sunrise.instantMs : Number.NaN;
  const minutes = ((hidden?.facts.clearsMs as number) - rose) / 60_000;
  expect(minutes).toBeGreaterThan(80);
  expect(minutes).toBeLessThan(100);
});

test('a polarizer on a mirror at 16 mm takes all of the reflection near the camera and none far off', () => {
  // 16 mm sees atan(12 / 16) = 36.9° to each side in height: with a tilt of −3° from the horizon, where nothing goes, to
  // 39.9°. Fresnel (E. Hecht, Optics, section 4.6) for n = 1.333: at 87° of incidence s 0.7887, p 0.6552, so that
  // log2(mean / p) = 0.14 stop; at 50.13° s 0.0672, p 0.00049: 6.1 stops. All goes at 36.9° (Brewster: 90° − atan n).
  const { findings } = check(
    plan(`        effect: mirror
        facing: 300°
        tilt: -3°
        lens: wide @ 16 mm
        aperture: f/11
        iso: 64
        metered: 1/2 s
        filters: [pol, nd6]
        #         ^^^ warning filter/polarizer-against-mirror: Of that a polarizer can take 0.1 stop on the lens axis (3° to the water), nothing at the far edge and 6.1 stops, nearly all, at the bottom edge (39.9°). The mirror stays far off and goes near the camera.
        start: 06:25
`),
    { only: ['filter/polarizer-against-mirror'] },
  );
  const facts = findings.find(({ code }) => code === 'filter/polarizer-against-mirror')?.facts;
  expect(facts?.axisStops).toBeCloseTo(0.14, 2);
  expect(facts?.farEdgeStops).toBeCloseTo(0, 6);
  expect(facts?.bottomEdgeStops).toBeCloseTo(6.1, 1);
  expect(facts?.strongestShare).toBeCloseTo(1, 9);
});

test('½ s and six stops on film with p = 1.31 are 94 s', () => {
  // ½ · 2^6 = 32 s; 32^1.31 = 93.7 s (power law of reciprocity failure).
  const { day } = analysed(
    plan(`        film: slide
        aperture: f/11
        metered: ½ s
        filters: [nd6]
        start: 12:00
`),
    kit({ film: ['{ id: slide, iso: 50, reciprocity: { exponent: 1.31, beyond: 1 s } }'] }),
  );
  const exposure = day?.spots[0]?.shots[0]?.exposure;
  expect(exposure?.filtered?.filteredSeconds).toBeCloseTo(32, 9);
  expect(exposure?.filtered?.correctedSeconds).toBeCloseTo(93.7, 1);
  expect(exposure?.setting).toMatchObject({ kind: 'bulb', seconds: 94 });
});

test('200 mm at sunrise behind an optical finder harms the eye', () => {
  check(
    plan(`        facing: 92°
        #       ^^^ error safety/sun-in-frame: Never look through the optical finder: compose on the screen, or before the sun is there. At 200 mm it also harms sensor and shutter: cover the lens between frames. A dark filter is never eye protection.
        lens: tele @ 200 mm
        aperture: f/11
        metered: 1/500 s
        filters: [nd6]
        start: sunrise + 15 min
`),
    {
      only: ['safety/sun-in-frame'],
      ...kit({
        bodies: body('finder: optical'),
        lenses: ['{ id: tele, focal: 70-200 mm, aperture: f/4 .. f/32, thread: 77 mm }'],
      }),
    },
  );
});

test('a hard edge across peaks darkens them', () => {
  check(
    plan(`        filters: [hard3]
        #         ^^^^^ warning filter/hard-edge: such as soft3
        scene: { horizon: broken }
`),
    {
      only: ['filter/hard-edge'],
      ...kit({
        filters: [
          '{ id: hard3, kind: graduated, strength: 3 stops, edge: hard, slot: 100 mm }',
          '{ id: soft3, kind: graduated, strength: 3 stops, edge: soft, slot: 100 mm }',
        ],
        more: 'holder: { slots: 2, slot: 100 mm }',
      }),
    },
  );
});

test('17 stops of scene on 12 stops of sensor take six frames a stop apart', () => {
  // 1 + ceil((17 − 12) / 1) = 6 frames, about 1/4 s: offsets ±0.5, ±1.5, ±2.5 stops on a dial of thirds.
  check(
    plan(`        aperture: f/11
        iso: 100
        metered: 1/4 s
        scene: { range: 17 stops }
        #               ^^^^^^^^ warning filter/range-too-wide: The scene spans 17 stops, the body holds 12 stops: 5 stops too many. Take a graduated filter of 4 stops, the strongest to be had, and 2 frames 1 stop apart: 1/5 s, 0.4 s, 1 s in all; or 6 frames 1 stop apart: 1/20 s, 1/10 s, 1/5 s, 0.4 s, 0.8 s, 1.6 s, 3 s in all.
`),
    { only: ['filter/range-too-wide'] },
  );
});

test('stars trail in 25 s at 24 mm, f/2.8 on pixels of 4.3 µm', () => {
  // Pixel rule: 24 mm · 7.292e-5 · 25 s / 4.3 µm = 10.2 pixels at declination 0. Short NPF rule, from memory:
  // (35 · 2.83 + 30 · 4.3) / 24 = 9.5 s.
  check(
    plan(`        effect: star points
        facing: 180°
        tilt: 30°
        lens: fast
        aperture: f/2.8
        iso: 3200
        shutter: 25 s
        #        ^^^^ warning effect/stars-trail: stars run over 10 pixels at declination 0°, the fastest in the frame. They stay points for about 9.5 s
        start: astronomical dusk + 30 min
`),
    {
      only: ['effect/stars-trail'],
      ...kit({
        bodies: body('range: 12 stops'),
        lenses: ['{ id: fast, focal: 24 mm, aperture: f/1.4 .. f/16 }'],
      }),
    },
  );
});

test('f/22 on small pixels blurs over seven of them', () => {
  // 2.44 · 0.55 µm · 22.6 = 30.4 µm (Born and Wolf), over 4.3 µm = 7.1 pixels.
  check(
    plan(`        lens: wide @ 24 mm
        aperture: f/22
        #         ^^^^ hint focus/diffraction: At f/22 the Airy disc is 30 µm across, 7.1 pixels: fine detail is lost. f/8 with nd3 gives the same time with 2.5 pixels, and less depth of field.
        metered: 1/2 s
`),
    {
      only: ['focus/diffraction'],
      ...kit({
        bodies: body('range: 12 stops'),
        filters: ['{ id: nd3, kind: neutral density, strength: 3 stops, thread: 77 mm }'],
      }),
    },
  );
});

test('120 s at 200 mm on a footbridge shake', () => {
  check(
    plan(
      `        lens: tele @ 200 mm
        aperture: f/11
        shutter: 120 s
        #        ^^^^^ warning focus/shake: 2 min at 200 mm: a footbridge swings under every step
`,
      '    stance: { on: footbridge }\n',
    ),
    {
      only: ['focus/shake'],
      ...kit({ lenses: ['{ id: tele, focal: 70-200 mm, aperture: f/4 .. f/32 }'] }),
    },
  );
});

test('8 s on a cascade that is meant textured are three stops too long', () => {
  // Textured on a cascade: 1/8 s to 1 s, common practice, no source. log2(8 / 1) = 3.
  check(
    plan(`        effect: textured
        water: { kind: cascade }
        lens: wide @ 24 mm
        aperture: f/11
        iso: 64
        metered: 1/8 s
        #        ^^^^^ warning effect/outside-range: 8 s is 3 stops too long for “textured” on a cascade (1/8 s to 1 s). It will look silky. Use no filter: 1/8 s at f/11.
        filters: [nd6]
`),
    { only: ['effect/outside-range'] },
  );
});
