import { describe, expect, test } from 'vitest';
import {
  type Analysis,
  type AnalysisOptions,
  analyse,
  numberWritten,
  type Opened,
  type Rule,
} from '../server/analysis.ts';
import { rules } from '../server/checks/list.ts';
import { thresholds } from '../server/schedule/thresholds.ts';
import { analysed, kitUri, planUri, smallKit } from './support/check.ts';

const head = 'plan: P\ndate: 2027-03-20\ntimezone: Europe/London\n';
const shot = `spots:
  - id: north
    at: 54.43, -2.61
    arrive: 06:00
    permission: granted
    shots:
      - { id: mirror, lens: wide @ 24 mm, aperture: f/14, iso: 64, metered: 1/2 s, filters: [nd6, nd9], body: spare }
`;
const withKit = `${head}kit: ../kit/field-bag.shootkit.yaml\n${shot}`;

function opening(
  opened: Opened | undefined,
  text = withKit,
): Analysis & { readonly asked: readonly string[] } {
  const asked: string[] = [];
  const open = (uri: string) => {
    asked.push(uri);
    return opened as Opened;
  };
  const analysis = analyse({ uri: planUri, text }, { rules, ...(opened === undefined ? {} : { open }) });
  return { ...analysis, asked };
}

function reported({ findings, text }: Analysis): readonly string[] {
  return findings.map(({ code, span }) => `${code} “${text.slice(span.start, span.end)}”`);
}

/** What is said of ids and of the kit. */
function aboutKit(analysis: Analysis): readonly string[] {
  return reported(analysis).filter((line) =>
    /^(?:plan\/unknown-id|kit\/(?:unreadable|has-errors))/.test(line),
  );
}

describe('The kit of a plan', () => {
  const path = '../kit/field-bag.shootkit.yaml';

  test('that is at hand: its ids are known, others are errors', () => {
    const analysis = opening({ kind: 'text', uri: kitUri, text: smallKit() });
    expect(aboutKit(analysis)).toEqual(['plan/unknown-id “nd9”', 'plan/unknown-id “spare”']);
    expect(analysis.asked).toEqual([kitUri]);
    expect(analysis.bag).toMatchObject({ state: 'ready', name: 'Field bag' });
    expect(analysis.declarations.filter(({ uri }) => uri === kitUri).map(({ id }) => id)).toEqual([
      'main',
      'wide',
      'nd6',
      'pol',
    ]);
  });

  test('that is still being read: nothing is said of it or of its ids', () => {
    const analysis = opening({ kind: 'pending' });
    expect(aboutKit(analysis)).toEqual([]);
    expect(analysis.bag.state).toBe('unread');
    // What does not hang on the kit is there.
    expect(analysis.day?.spots[0]?.arriveMs).toBe(Date.UTC(2027, 2, 20, 6));
  });

  test.each<readonly [string, Opened | undefined, string]>([
    ['is not there', { kind: 'missing' }, 'There is no such file.'],
    [
      'must not be read',
      { kind: 'refused', reason: 'It lies outside the workspace.' },
      'outside the workspace',
    ],
    ['cannot be opened by this host', undefined, 'There is no such file.'],
  ])('that %s: one error on the path, nothing about ids', (_, opened, reason) => {
    const analysis = opening(opened);
    expect(aboutKit(analysis)).toEqual([`kit/unreadable “${path}”`]);
    expect(analysis.findings.find(({ code }) => code === 'kit/unreadable')?.message).toContain(reason);
  });

  test.each([
    ['/etc/bag.shootkit.yaml', 'root'],
    ['~/bag.shootkit.yaml', 'root'],
    ['https://example.org/bag.shootkit.yaml', 'address'],
    ['..\\bag.shootkit.yaml', '/'],
    ['../../../../bag.shootkit.yaml', 'topmost'],
    ['../kit/*.shootkit.yaml', 'one file'],
    ['../kit/field-bag.yaml', '.shootkit.yaml'],
  ])('by the path %s is refused, and nothing is opened', (written, reason) => {
    const analysis = opening({ kind: 'pending' }, withKit.replace(path, written));
    expect(analysis.asked).toEqual([]);
    expect(aboutKit(analysis)).toEqual([`kit/unreadable “${written}”`]);
    expect(analysis.findings.find(({ code }) => code === 'kit/unreadable')?.message).toContain(reason);
  });

  test('with mistakes: a warning on the path that leads to them', () => {
    const text = smallKit({ filters: ['{ id: nd6, kind: neutral density, strength: 3.0 }'] });
    const analysis = opening({ kind: 'text', uri: kitUri, text });
    expect(aboutKit(analysis)[0]).toBe(`kit/has-errors “${path}”`);
    const [finding] = analysis.findings;
    expect(finding?.related[0]?.uri).toBe(kitUri);
    expect(text.slice(finding?.related[0]?.span.start, finding?.related[0]?.span.end)).toBe('3.0');
    // The filter has no strength, so there is no time; the meter reading stays.
    expect(analysis.day?.shotOf('mirror')?.exposure).toBeUndefined();
  });

  test('written into the plan itself needs no file', () => {
    const inline = `${head}kit:\n  filters:\n    - { id: nd6, kind: neutral density, strength: 6 stops }\n${shot}`;
    const analysis = opening(undefined, inline);
    expect(aboutKit(analysis)).toEqual([
      'plan/unknown-id “wide”',
      'plan/unknown-id “nd9”',
      'plan/unknown-id “spare”',
    ]);
    expect(analysis.bag.state).toBe('ready');
  });

  test('that no plan names: ids of equipment are unknown, and the message says how to name one', () => {
    const analysis = opening(undefined, head + shot);
    expect(aboutKit(analysis)).toContain('plan/unknown-id “nd6”');
    expect(analysis.findings.find(({ code }) => code === 'plan/unknown-id')?.message).toContain(
      'names no kit',
    );
  });
});

describe('Severities', () => {
  const late = `${head}spots:\n  - id: a\n    at: 54.43, -2.61\n    arrive: 06:00\n    setup: 20 min\n    permission: granted\n    shots:\n      - { id: s, shutter: 1 s, start: 06:10 }\n`;
  const severity = (text: string, settings?: AnalysisOptions['settings']) =>
    analysed(text, settings === undefined ? {} : { settings }).findings.find(
      ({ code }) => code === 'time/late-start',
    )?.severity;

  test('are the rule’s own at first', () => {
    expect(severity(late)).toBe('error');
  });

  test.each(['hint', 'warning', 'error', 'off'] as const)('are set by the settings: %s', (set) => {
    expect(severity(late, { checks: new Map([['time/late-start', set]]) })).toBe(
      set === 'off' ? undefined : set,
    );
  });

  test.each(['hint', 'warning', 'error', 'off'] as const)('are set by the plan: %s', (set) => {
    const text = `${late}checks: { time/late-start: ${set} }\n`;
    expect(severity(text)).toBe(set === 'off' ? undefined : set);
  });

  test('of the plan go before those of the settings', () => {
    const text = `${late}checks: { time/late-start: warning }\n`;
    expect(severity(text, { checks: new Map([['time/late-start', 'off']]) })).toBe('warning');
  });

  test('are set for what reading itself reports, too', () => {
    const text = `${head}zebra: 1\nchecks: { plan/unknown-key: error }\n`;
    expect(analysed(text).findings.find(({ code }) => code === 'plan/unknown-key')?.severity).toBe('error');
  });
});

describe('Thresholds', () => {
  test('are the usual ones at first', () => {
    const values = Object.fromEntries(thresholds.map(({ name, value }) => [name, value]));
    expect(analysed(head).thresholds).toEqual(values);
  });

  test('are set by the settings, and by the plan before them', () => {
    const settings = {
      thresholds: new Map([
        ['fastest-drive', 100],
        ['drift', 0.5],
        ['zebra', 3],
      ]),
    };
    const text = `${head}thresholds: { fastest-drive: 120 km/h, long-residual: 1/3 }\n`;
    expect(analysed(text, { settings }).thresholds).toMatchObject({
      'fastest-drive': 120,
      drift: 0.5,
      'long-residual': 1 / 3,
    });
    expect(analysed(text, { settings }).thresholds).not.toHaveProperty('zebra');
  });

  test('change the day: walking takes the factor', () => {
    const walk = (factor: string) =>
      analysed(
        `${head}thresholds: { walking-factor: ${factor} }\nspots:\n  - { id: a, at: "54.43, -2.61", walk: { distance: 5 km, climb: 600 m } }\n`,
      ).day?.spots[0]?.walk?.thereSeconds;
    // Naismith: an hour for 5 km and an hour for 600 m of climb.
    expect(walk('1')).toBe(7200);
    expect(walk('1.5')).toBe(10_800);
  });

  test.each([
    ['3', 3],
    ['1/3 stop', 1 / 3],
    ['120 km/h', 120],
    ['-2', -2],
    ['0.25', 0.25],
    ['fast', undefined],
    ['', undefined],
    ['1.2.3', undefined],
  ])('are read from %j', (text, number) => {
    expect(numberWritten(text)).toBe(number);
  });
});

describe('Findings', () => {
  test('stand in the order of the text, and only in the document itself', () => {
    const { findings } = analysed(`${head}zebra: 1\nspots:\n  - { id: a, at: 1, arrive: sunris }\n`);
    const starts = findings.map(({ span }) => span.start);
    expect(starts.length).toBeGreaterThan(2);
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
    expect(findings.every(({ uri }) => uri === planUri)).toBe(true);
  });

  test('of a rule carry its code and severity, and those in another document are left out', () => {
    const rule: Rule = {
      code: 'plan/example',
      severity: 'hint',
      doc: 'For this test.',
      check: ({ uri }, report) => {
        report({ uri, span: { start: 0, end: 4 } }, 'Here.', { facts: { minutes: 3 } });
        report({ uri: kitUri, span: { start: 0, end: 3 } }, 'There.');
      },
    };
    const { findings } = analyse({ uri: planUri, text: head }, { rules: [rule] });
    expect(findings).toEqual([
      {
        code: 'plan/example',
        severity: 'hint',
        uri: planUri,
        span: { start: 0, end: 4 },
        message: 'Here.',
        related: [],
        facts: { minutes: 3 },
      },
    ]);
  });
});

describe('A document', () => {
  test.each([
    ['file:///a/b.shootplan.yaml', 'kit: K\n', 'plan'],
    ['file:///a/b.shootplan.yml', 'kit: K\n', 'plan'],
    ['file:///a/b.shootkit.yaml', 'plan: P\n', 'kit'],
    ['file:///a/b.SHOOTKIT.YML', 'plan: P\n', 'kit'],
    ['untitled:Untitled-1', 'kit: Field bag\nbodies: []\n', 'kit'],
    ['untitled:Untitled-1', 'plan: P\nkit: bag.shootkit.yaml\n', 'plan'],
    ['untitled:Untitled-1', '', 'plan'],
  ])('called %s that says %j is a %s', (uri, text, kind) => {
    expect(analyse({ uri, text }, { rules }).kind).toBe(kind);
  });
});

test('with the memory of an earlier analysis, a changed kit is read again', () => {
  const kits = [smallKit(), smallKit({ filters: ['{ id: nd9, kind: neutral density, strength: 9 stops }'] })];
  let kit = 0;
  const open = (): Opened => ({ kind: 'text', uri: kitUri, text: kits[kit] as string });
  const first = analyse({ uri: planUri, text: withKit }, { rules, open });
  kit = 1;
  const second = analyse({ uri: planUri, text: withKit }, { rules, open, memory: first.memory });
  expect(aboutKit(first)).toContain('plan/unknown-id “nd9”');
  expect(aboutKit(second)).toEqual(['plan/unknown-id “nd6”', 'plan/unknown-id “spare”']);
});
