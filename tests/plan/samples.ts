/** A whole outing as it might be written, with every shape of YAML that plans use. */
export const plan = `plan: Dawn to noon on the Hallin reservoirs
date: 2027-03-20                     # the civil date at the first spot
timezone: Europe/London
bearings: true
party: { contact: told, back-by: 14:00 }
start: { from: "54.395, -2.640", leave: sunrise - 100 min }
forecast:
  issued: 2027-03-19 18:00
  hours:
    - { at: 05:00, cloud: 90 %, wind: 3 km/h, air: 4 °C, dew-point: 3 °C }
    - { at: 06:00, cloud: 80 %, wind: 5 km/h, air: 5 °C, dew-point: 3 °C }
tides:
  - { low: 06:12, height: 0.9 m }
  - { high: 12:24, height: 5.4 m }

spots:
  - id: north-steps
    name: North steps
    at: 54.4301, -2.6102
    elevation: 212 m
    skyline: { E: 6°, SE: 9°, S: 4° }
    drive: 35 min
    walk:
      distance: 600 m
      climb: 40 m
    arrive: sunrise - 45 min
    setup: 10 min
    open: 06:00 .. 21:00
    permission: granted
    stance: { on: wall, height-needed: 1.9 m }
    hazards: [deep water, spillway upstream]
    water: { state: calm, level: full }
    needs: [wind < 5 km/h, cloud < 95 %]
    decide: sunrise - 60 min
    otherwise: cascade
    # the mirror first, while the air is still
    shots:
      - id: mirror
        effect: mirror
        subject: { at: "54.4270, -2.6050", height: 34 m }
        facing: 118°                    # or found from the subject
        tilt: -3°
        lens: wide @ 24 mm
        aperture: f/14
        iso: 64
        metered: 1/2 s
        filters: [nd6]
        start: sunrise + 10 min
        frames: 2
      - id: steps
        effect: silky
        facing: ESE
        lens: wide @ 16 mm
        aperture: f/11
        metered: 1/4 s
        filters:
          - nd6
          - pol
        note: |
          Keep the rail out of the frame.
          Wipe the filter: there is spray.
        start: after mirror

  - id: cascade
    name: 'Lower cascade'
    at: "54.4322, -2.6188"
    elevation: 188 m
    drive: 12 min
    arrive: 10:15
    hazards:
      - slippery rock
      - cold water
    shots:
      - id: veil
        effect: mist
        facing: 40°
        lens: wide @ 35 mm
        aperture: f/16
        iso: 64
        metered: 1/15 s
        filters: [nd6, pol]
        start: 10:40
        frames: 3
kit: ../kit/field-bag.shootkit.yaml
checks: { time/late-arrival: hint }
`;

/** Well-formed texts that are awkward to take apart. */
export const awkward: readonly string[] = [
  '',
  '\n\n',
  '# only a comment\n',
  'plan',
  'a: 1',
  'spots:\n- id: a\n  x: 1\n- id: b\nkit: k\n',
  'spots:\n-   id: a\n    x: 1\n-   id: b\n    y:\n    -   p: 1\n        q: 2\n    -   p: 3\n',
  'spots:\n-\n  id: a\n-\n  id: b\n',
  '- a\n- b: 1\n  c: 2\n-\n- - x\n  - y\n',
  '  a: 1\n  b:\n    - 2\n',
  'note: |\n  key: value\n  - item\n\n  [ {\nnext: 1\n',
  'note: >-\n  folded\n  text\n\n\n# comment\n\nnext: 1\n',
  'note: |+\n  kept\n\n\nnext: 1\n',
  'note: |2\n    deep\n  less\nnext: 1\n',
  'spots:\n  - note: |\n      - id: no item\n      key: no key\n    x: 1\n  - |\n    text\n  - >\n   folded\n   more\n',
  'text: "two\n  lines: and\n\n  - more"\nnext: 1\n',
  "text: 'two\n  lines # no comment\n  it''s'\nnext: 1\n",
  'plain: goes on\n  over lines\n  - and on\nnext: 1\n',
  'plain:\n  on its own\n  lines\nnext:\n  # comment\n  value\n',
  'flow: { a: 1,\n  b: [x,\n  y], # comment\n# comment far left\n  c: 3 }\nnext: 1\n',
  'flow: [\n  a,\n  b\n]\nspots:\n  - list: [\n      a\n    ]\n    x: 1\n  - [\n    b\n  ]\nnext: 1\n',
  '{ a: 1,\nb: 2\n}\n',
  '"a": 1\n\'b\': 2\n"c" : 3\n',
  '? a\n: 1\n? b\n',
  'x: 1\n? complex\n: 2\ny: 3\n',
  'a: 1\n? - list\n  - as key\n: 2\nb: 3\n',
  'base: &base\n  x: 1\nlist: &l\n  - 1\n  - 2\nuse: *base\nmore: [*l, *base]\n&k key: v\n',
  'list: &l # comment\n  # comment\n\n  - &i\n    a: 1\n  - &j b: 2\n  - *i\n',
  'a: !!str 5\nb: !!map\n  c: 1\nc: !!seq\n  - 1\n',
  'a:\nb:   # nothing\nc:\n\n',
  'a: 1\na: 2\nb: 3\n"a": 4\n01: x\n1: y\n',
  'spots:\n  - a: 1\n\n  # between\n\n  - a: 2\n# far left\n  - a: 3\n\n\n# end\n',
  'a: b:c\nurl: https://example.org/x#y\ntime: 06:30\n',
  'emoji: 🌅 Søndre øy\nspots:\n  - {name: "🌅 Søndre øy", at: 25:00}\n',
  'empty: []\nmap: {}\nlist:\n  - []\n  - {}\n  -\n',
  '%YAML 1.1\n---\na: no\nb: 010\n',
  '---\na: 1\n...\n',
  '\uFEFFa: 1\nb:\n  - 2\n',
  '\t\na: 1\n \t# comment\nb:\t2\n\t# comment\nc: 3\n',
  'a: 1   \nb: [1, 2]   # c\n',
  'key with spaces: 1\n- dashed: 2\n'.replace('- d', 'd'),
  '<<: 1\n__proto__: { timezone: Europe/Oslo }\nconstructor: 1\n',
  "a: \"\\u00e9\\n\\x41\"\nb: 'it''s'\n",
];
