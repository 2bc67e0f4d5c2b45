import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { weekday } from '../../server/features/wording.ts';
import { Command } from './command.ts';
import { bag, clean } from './plans.ts';

let command: Command;

beforeAll(async () => {
  command = await Command.build();
  await command.write('plans/clean.shootplan.yaml', clean);
  await command.write('kit/bag.shootkit.yaml', bag);
});

afterAll(() => command.remove());

describe('the day as text', () => {
  test('reads like a sheet', async () => {
    const { code, out, error } = await command.run(['day', 'plans/clean.shootplan.yaml']);
    expect([code, error]).toEqual([0, '']);
    expect(out.replace(/^findings: .*$/m, 'findings: ...')).toMatchInlineSnapshot(`
      "Dawn at the jetty
      Saturday 2027-03-20, UTC+00:00 (Europe/London)
      kit: Bag
      leave: 04:34

      jetty (Old jetty)
        sun           civil dawn 05:38 at 082°, sunrise 06:14 at 089°, solar noon 12:18 at +35°, sunset 18:23 at 271°, civil dusk 18:59 at 278°
        moon          waxing gibbous, 95 % lit, moonset 05:27 at 288°, moonrise 16:05 at 077°, moon transit 23:02 at +41°
        leave by      04:39
        arrive        05:29, 5 min to spare
        ready         05:39, 45 min to spare
        mirror        06:24 .. 06:25
          facing      118° true, tilt −3.0°
          lens        wide, 24 mm, f/8, ISO 100
          sun         091° +1.0°, back-lit, sun on the left
          light       about EV 7.7 expected ± 1 2/3 stops
          exposure    1/2 s metered → nd6 6.4 stops → 42.2 s → 42 s bulb ± 0.1 stop
          takes       2 frames, 1 min 24 s in all
          caution     The sun is in the frame. Never look at the sun through an optical finder; a dark filter is no eye protection.
        leave         06:40

      findings: ...
      "
    `);
  });

  test('has LF line ends, no blanks at the end of a line and one line end at the end', async () => {
    await command.write('plans/crlf.shootplan.yaml', clean.replaceAll('\n', '\r\n'));
    const { out } = await command.run(['day', 'plans/crlf.shootplan.yaml']);
    expect(out).toBe((await command.run(['day', 'plans/clean.shootplan.yaml'])).out);
    expect(out).not.toMatch(/[ \t]$|\r/m);
    expect(out).toMatch(/[^\n]\n$/);
  });

  test('is the same on every machine: whatever zone, language and time it is there', async () => {
    const here = await command.run(['day', 'plans/clean.shootplan.yaml'], { environment: { TZ: 'UTC' } });
    const there = await command.run(['day', 'plans/clean.shootplan.yaml'], {
      environment: { TZ: 'Pacific/Chatham', LANG: 'de_DE.UTF-8', LC_ALL: 'de_DE.UTF-8' },
    });
    expect(there.out).toBe(here.out);
  });

  test('differs in few lines when one moment moves', async () => {
    await command.write('plans/later.shootplan.yaml', clean.replace('sunrise + 10 min', 'sunrise + 12 min'));
    const lines = async (name: string) => (await command.run(['day', name])).out.split('\n');
    const before = await lines('plans/clean.shootplan.yaml');
    const after = await lines('plans/later.shootplan.yaml');
    expect(after).toHaveLength(before.length);
    const changed = after.filter((line, at) => line !== before[at]).map((line) => line.trim().split(' ')[0]);
    for (const label of changed) expect(['ready', 'mirror', 'sun', 'light', 'leave']).toContain(label);
    expect(changed).toContain('mirror');
  });

  test('of a half-written plan keeps what is known', async () => {
    const { code, out } = await command.run(['day', '-'], {
      input:
        'plan: Half\ndate: 2027-03-20\nspots:\n  - id: jetty\n    at: 54.4301, -2.6102\n    arrive: sunris\n  - id: pier\n',
    });
    expect(code).toBe(0);
    expect(out).toContain('Half\nSaturday 2027-03-20, UTC+00:00 (Europe/London, from the coordinates)\n');
    expect(out).toMatch(/^ {2}arrive {8}not known$/m);
    expect(out).toMatch(/^ {2}place {9}not known: /m);
    expect(out).toMatch(/^findings: [1-9]\d* errors?, /m);
    expect((await command.run(['day', '-'], { input: '' })).code).toBe(0);
  });

  test('names hazards and whose word counts there, opening hours, the decision and the way out', async () => {
    const input = `plan: Full
date: 2027-03-20
party: { back-by: 14:00 }
spots:
  - id: jetty
    at: 54.4301, -2.6102
    hazards: [spillway upstream, deep water]
    open: 06:00 .. 21:00
    decide: 04:45
    otherwise: pier
    arrive: 07:00
`;
    const { out } = await command.run(['day', '-'], { input });
    expect(out).toContain('\nback by: 14:00\n');
    expect(out).toContain(
      '\n  hazards       spillway upstream, deep water: local rules and the people responsible there come first\n' +
        '  caution       Water can be released without warning, and rise fast: keep out of the channel, and mind sirens and signs\n' +
        '  caution       Keep off wet edges, never wade alone, and have a way out of the water\n',
    );
    expect(out).toContain('\n  open          06:00 .. 21:00\n  decide        04:45, otherwise pier\n');
  });

  test('names every sunset of a date that has two', async () => {
    // Near the polar circle the sun can set just after midnight and again just before the next one.
    const input = 'plan: x\ndate: 2027-07-13\nspots: [{ id: a, at: "65.75, 24.5" }]\n';
    const { out } = await command.run(['day', '-'], { input });
    expect(out.match(/\bsunset \d\d:\d\d/g)).toEqual(['sunset 00:02', 'sunset 23:58']);
  });

  test('says what is set, and how far a body that ends there falls short', async () => {
    const input = `plan: x
date: 2027-03-20
kit:
  bodies: [{ id: main, shutter: 1/4000 s .. 30 s, bulb: no }]
  filters: [{ id: nd10, kind: neutral density, strength: 10 stops }]
spots:
  - id: a
    at: 54.4301, -2.6102
    arrive: 09:00
    shots:
      - { id: long, aperture: f/8, metered: 2 s, filters: [nd10] }
      - { id: steps, aperture: f/8, metered: 1/60 s, bracket: { frames: 3, step: 2/3 stop } }
`;
    const { out } = await command.run(['day', '-'], { input });
    // 2 s × 2^10 = 2048 s; the dial ends at 32 s: log2(2048 / 32) = 6 stops.
    expect(out).toContain('→ 34 min 8 s → 30 s, 6.0 stops short ± 1/2 stop\n');
    expect(out).toContain('\n    bracket     1/100 s, 1/60 s, 1/40 s\n    takes       1 × 3 frames, ');
  });

  test('fits git: a copy elsewhere finds its kit with --from', async () => {
    await command.write('copy/blob_clean.shootplan.yaml', clean);
    const { out } = await command.run(['day', '--from', 'plans', 'copy/blob_clean.shootplan.yaml']);
    expect(out).toBe((await command.run(['day', 'plans/clean.shootplan.yaml'])).out);
  });
});

// Days of the week that are matters of record: the first landing on the moon was on a Sunday, the Gregorian calendar
// began on a Friday; 1 January 2000 was a Saturday (Calendrical Calculations, 4th edition, appendix C, from memory).
test.each([
  [{ year: 1969, month: 7, day: 20 }, 'Sunday'],
  [{ year: 1582, month: 10, day: 15 }, 'Friday'],
  [{ year: 2000, month: 1, day: 1 }, 'Saturday'],
])('%o was a %s', (date, name) => {
  expect(weekday(date)).toBe(name);
});

describe('the day as JSON', () => {
  interface Time {
    readonly epochMilliseconds: number;
    readonly local: string;
  }
  interface DayJson {
    readonly version: number;
    readonly spots: readonly {
      readonly events: Readonly<Record<string, Time>>;
      readonly arrive: Time;
      readonly shots: readonly {
        readonly start: Time;
        readonly exposure: Readonly<Record<string, number>>;
        readonly frames: Readonly<Record<string, number>>;
        readonly sun: Readonly<Record<string, number>>;
      }[];
    }[];
  }

  async function day(): Promise<DayJson> {
    const { out } = await command.run(['day', '--format', 'json', 'plans/clean.shootplan.yaml']);
    return JSON.parse(out) as DayJson;
  }

  test('gives numbers as computed, units in the keys, times as instants and with their offset', async () => {
    const { version, spots } = await day();
    expect(version).toBe(1);
    const [shot] = spots[0]?.shots ?? [];
    // ISO 2720 and ISO 5: 1/2 s through 6.4 stops is 1/2 s · 2^6.4.
    expect(shot?.exposure.filteredSeconds).toBeCloseTo(0.5 * 2 ** 6.4, 10);
    expect(shot?.exposure.settingSeconds).toBe(42);
    expect(shot?.exposure.spreadStops).toBeCloseTo(0.1, 10);
    expect(shot?.frames.totalSeconds).toBe(84);
    const start = shot?.start as Time;
    expect(new Date(start.local).getTime()).toBe(Math.trunc(start.epochMilliseconds));
    expect(start.local).toMatch(/^2027-03-20T06:2\d:\d\d\.\d{3}\+00:00$/);
    const sunrise = spots[0]?.events.sunrise?.epochMilliseconds ?? 0;
    expect(start.epochMilliseconds - sunrise).toBeCloseTo(10 * 60_000, 3);
  });

  test('says the same as the text', async () => {
    const { spots } = await day();
    const { out } = await command.run(['day', 'plans/clean.shootplan.yaml']);
    const minute = (ms: number) => new Date(Math.round(ms / 60_000) * 60_000).toISOString().slice(11, 16);
    expect(out).toContain(`  arrive        ${minute(spots[0]?.arrive.epochMilliseconds ?? 0)},`);
    const azimuth = Math.round(spots[0]?.shots[0]?.sun.azimuthDegrees ?? 0);
    expect(out).toMatch(new RegExp(`^ {4}sun {9}0?${azimuth}° `, 'm'));
  });

  test('has no key with a bare number but counts, shares of names and flags', async () => {
    const bare: string[] = [];
    const walk = (value: unknown): void => {
      if (typeof value !== 'object' || value === null) return;
      for (const [key, inner] of Object.entries(value)) {
        const hasUnit =
          /(Seconds|Milliseconds|Degrees|Metres|Millimetres|Stops|Ev100|Lux|Share)$|^(version|count|fNumber|iso|stops|line|column|endLine|endColumn|\d+)$/.test(
            key,
          );
        if (typeof inner === 'number' && !hasUnit) bare.push(key);
        if (key !== 'facts') walk(inner);
      }
    };
    walk(await day());
    expect(bare).toEqual([]);
  });

  interface Found {
    readonly code: string;
    readonly line: number;
    readonly column: number;
  }

  test('findings stand where `check` has them', async () => {
    const late = clean.replace('leave: sunrise - 100 min', 'leave: sunrise - 80 min');
    await command.write('plans/late.shootplan.yaml', late);
    const { out } = await command.run(['day', '--format', 'json', 'plans/late.shootplan.yaml']);
    const { findings } = JSON.parse(out) as { findings: Found[] };
    const checked = await command.run(['check', '--format', 'json', 'plans/late.shootplan.yaml']);
    const { files } = JSON.parse(checked.out) as { files: { findings: Found[] }[] };
    expect(findings.length).toBeGreaterThan(0);
    const places = (list: readonly Found[] = []) =>
      list.map(({ code, line, column }) => [code, line, column]);
    expect(places(findings)).toEqual(places(files[0]?.findings));
    const arrival = findings.find(({ code }) => code === 'time/late-arrival');
    expect(late.split('\n')[(arrival?.line ?? 0) - 1]?.slice((arrival?.column ?? 0) - 1)).toBe(
      'sunrise - 45 min',
    );
  });

  test('a sun that is down lights nothing and is in no frame', async () => {
    const lightAt = async (start: string) => {
      await command.write(
        'plans/dark.shootplan.yaml',
        clean.replace('start: sunrise + 10 min', `start: ${start}`).replace('facing: 118°', 'facing: 270°'),
      );
      const { out } = await command.run(['day', '--format', 'json', 'plans/dark.shootplan.yaml']);
      const { spots } = JSON.parse(out) as { spots: { shots: { light: Record<string, unknown> }[] }[] };
      return spots[0]?.shots[0]?.light;
    };
    // The rising sun stands in the east, behind a camera that looks west.
    expect(await lightAt('sunrise + 10 min')).toMatchObject({ kind: 'front-lit', side: 'behind' });
    const down = await lightAt('sunrise - 20 min');
    expect(down).not.toHaveProperty('kind');
    expect(down).not.toHaveProperty('side');
    expect(down).toMatchObject({ sunInFrame: false });
  });

  test('a frame below a second is named as on the dial, whose 1/60 s is 1/64 s', async () => {
    const short = clean
      .replace('metered: 1/2 s', 'metered: 1/60 s')
      .replace('        filters: [nd6]\n', '')
      .replace('        frames: 2\n', '');
    await command.write('plans/short.shootplan.yaml', short);
    const { out } = await command.run(['day', 'plans/short.shootplan.yaml']);
    expect(out).toContain('    takes       1 frame, 1/60 s in all\n');
  });
});
