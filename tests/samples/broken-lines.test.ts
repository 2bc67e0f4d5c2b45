import { describe, expect, test } from 'vitest';
import type { Analysis } from '../../server/analysis.ts';
import { createAnalysisMemory } from '../../server/analysis.ts';
import { createMemory } from '../../server/schedule/memory.ts';
import { analyseAs, sampleText } from './folder.ts';

/**
 * One broken line blanks only what depends on it.
 *
 * Each line of a clean plan is broken in turn, in several ways, and what still computes is compared with the whole plan.
 * The rule: what may go blank is what the line says, and what follows from that:
 *
 * - a line in a shot: the exposure of that shot;
 * - a line of a spot outside its shots: no exposure that was metered;
 * - a line at the top: what hangs on that key. A metered exposure hangs on the kit alone.
 *
 * Only a line that opens something may cost more, as what stands in it has nowhere to belong: `shots:` and the first line
 * of a spot all shots of that spot, the first line of a shot the shot above it too. Where that line is the first of its
 * list there is none above it, and it costs no more than itself, even when it is deleted altogether. A spot goes blank
 * only with the line that opens it, or the one that opens the spot below it.
 */
const name = 'dawn-to-noon.shootplan.yaml';
const text = sampleText(name);
const lines = text.split('\n');
const sky = createMemory();

const breaks: readonly (readonly [string, (line: string) => string])[] = [
  ['the colon is deleted', (line) => line.replace(/:/, '')],
  [
    'the line is cut in the middle',
    (line) => line.slice(0, indentOf(line) + ((line.length - indentOf(line)) >> 1)),
  ],
  ['the line is cut behind its colon', (line) => line.replace(/:.*$/, ':')],
  ['a stray [ stands before the value', (line) => line.replace(/: ?/, ': [')],
  ['a stray { stands before the value', (line) => line.replace(/: ?/, ': {')],
  ['a stray " stands before the value', (line) => line.replace(/: ?/, ': "')],
  ['a stray ] stands behind it', (line) => `${line.replace(/ +#.*$/, '')}]`],
  ['the indentation is deleted', (line) => line.trimStart()],
  ['one blank more stands before it', (line) => ` ${line}`],
  ['the dash is deleted', (line) => line.replace(/^( *)- /, '$1  ')],
  ['the dash and its blank are deleted', (line) => line.replace(/^( *)- /, '$1')],
  ['the line is deleted', () => ''],
];

function indentOf(line: string): number {
  return line.length - line.trimStart().length;
}

interface Computed {
  /** The ids of shots with an exposure that was metered or stated. */
  readonly exposures: ReadonlySet<string>;
  readonly spots: ReadonlySet<string>;
  /** How many moments that the plan states are resolved. */
  readonly moments: number;
}

function computed({ day }: Analysis): Computed {
  const shots = day?.spots.flatMap((spot) => spot.shots) ?? [];
  return {
    exposures: new Set(
      shots
        .filter(({ exposure }) => exposure !== undefined && exposure.basis !== 'expected')
        .map(({ shot }) => shot.id?.value ?? ''),
    ),
    spots: new Set(day?.spots.map(({ spot }) => spot.id?.value ?? '')),
    moments: day?.moments.filter(({ resolution }) => resolution.kind === 'at').length ?? 0,
  };
}

const whole = computed(analyseAs(name, text, { memory: createAnalysisMemory(sky), rules: [] }));

/** Where a line stands. */
interface Standing {
  /** A line that opens a list, a map or an item of one. */
  readonly opens: boolean;
  readonly key: string;
  /** The spot and the shot around it. */
  readonly spot?: string;
  readonly shot?: string;
}

const standings: readonly Standing[] = (() => {
  let spot: string | undefined;
  let shot: string | undefined;
  return lines.map((line) => {
    const id = /^( *)- id: (\S+)/.exec(line);
    if (id?.[1] === '  ') [spot, shot] = [id[2], undefined];
    else if (id?.[1] === '      ') shot = id[2];
    return {
      key: /^ *(?:- )?([a-z-]+):/.exec(line)?.[1] ?? '',
      opens: /^ *- /.test(line) || /: *(?:#.*)?$/.test(line),
      ...(spot === undefined ? {} : { spot }),
      ...(shot === undefined ? {} : { shot }),
    };
  });
})();

/** Comments and empty lines say nothing. */
const telling = lines.flatMap((line, at) => (/^\s*(?:#.*)?$/.test(line) ? [] : [at]));

test('the whole plan computes', () => {
  expect(whole.exposures.size).toBe(8);
  expect(whole.spots.size).toBe(3);
  expect(whole.moments).toBeGreaterThan(12);
  expect(telling.length).toBeGreaterThan(120);
});

describe('When', () => {
  test.each(breaks)('%s, only what depends on the line goes blank', (_, breaking) => {
    const wrong: string[] = [];
    // The memory of a document that is being typed in: each text is read after the one before.
    const memory = createAnalysisMemory(sky);
    for (const at of telling) {
      const line = lines[at] as string;
      const broken = breaking(line);
      if (broken === line) continue;
      const changed = [...lines.slice(0, at), broken, ...lines.slice(at + 1)].join('\n');
      const left = computed(analyseAs(name, changed, { memory, rules: [] }));
      const standing = standings[at] as Standing;
      // Without the kit there are no filters, and without `spots` there is no spot.
      if (standing.key === 'kit' || standing.key === 'spots') continue;
      const allowed = allowedToLose(standing, broken === '');
      const lost = [...whole.exposures].filter((id) => !left.exposures.has(id) && !allowed.has(id));
      if (lost.length > 0) wrong.push(`line ${at + 1} “${broken}” costs the time of ${lost.join(', ')}`);
      const gone = [...whole.spots].filter((id) => !left.spots.has(id));
      if (gone.length > 0 && !standing.opens)
        wrong.push(`line ${at + 1} “${broken}” costs ${gone.join(', ')}`);
    }
    expect(wrong).toEqual([]);
  });
});

/** The shots whose exposure may go with a line. */
function allowedToLose(standing: Standing, deleted: boolean): ReadonlySet<string> {
  const { opens, key, shot, spot } = standing;
  if (!opens) return new Set(shot === undefined ? [] : [shot]);
  const around = standings.filter((other) => other.spot === spot).flatMap((other) => other.shot ?? []);
  const order = [...new Set(around)];
  if (shot === undefined) {
    const first = spot === [...whole.spots][0];
    return new Set(key === 'shots' || (key === 'id' && !(first && deleted)) ? order : []);
  }
  if (key !== 'id') return new Set([shot]);
  const place = order.indexOf(shot);
  return new Set(order.slice(Math.max(place - 1, 0), place + 1));
}
