import { parseDocument } from 'yaml';
import { type AnalysisOptions, analyse, createAnalysisMemory } from '../../server/analysis.ts';
import { rules } from '../../server/checks/list.ts';
import { benchKit, benchPlan, reading, readingOf } from './plans.ts';
import { type Runs, runsOf } from './table.ts';

export interface CoreTimes {
  readonly shots: number;
  readonly characters: number;
  readonly findings: number;
  /** Milliseconds. */
  readonly parse: Runs;
  readonly cold: Runs;
  readonly warm: Runs;
  /** Cold analysis against bare parsing, in one and the same round. */
  readonly ratio: Runs;
}

const uri = 'file:///bench/day.shootplan.yaml';
const open: NonNullable<AnalysisOptions['open']> = (kit) => ({ kind: 'text', uri: kit, text: benchKit });

/** Times the core on a plan of so many shots, in rounds, so that a busy moment of the machine touches all three alike. */
export function timeCore(shots: number, rounds: number): CoreTimes {
  const text = benchPlan(shots);
  const kept = createAnalysisMemory();
  const findings = analyse({ uri, text }, { rules, open, memory: kept }).findings.length;
  const times = { parse: [] as number[], cold: [] as number[], warm: [] as number[] };
  for (let round = -Math.ceil(rounds / 5); round < rounds; round += 1) {
    const parse = timed(() => parseDocument(text));
    const cold = timed(() => analyse({ uri, text }, { rules, open }));
    const edited = withReading(text, [0.1, 0.5, 0.9][(round + rounds) % 3] as number, round + rounds);
    const warm = timed(() => analyse({ uri, text: edited }, { rules, open, memory: kept }));
    // The first rounds only warm up.
    if (round < 0) continue;
    times.parse.push(parse);
    times.cold.push(cold);
    times.warm.push(warm);
  }
  const parse = runsOf(times.parse);
  const cold = runsOf(times.cold);
  return {
    shots,
    characters: text.length,
    findings,
    parse,
    cold,
    warm: runsOf(times.warm),
    ratio: runsOf(times.cold.map((cold, round) => cold / (times.parse[round] as number))),
  };
}

/** The text with another meter reading at a shot that far down: one that was not there before, so all after it moves. */
function withReading(text: string, share: number, round: number): string {
  const readings = [...text.matchAll(reading)];
  const match = readings[Math.floor(share * readings.length)];
  if (match === undefined) return text;
  return `${text.slice(0, match.index)}metered: ${readingOf(round)}${text.slice(match.index + match[0].length)}`;
}

function timed(run: () => unknown): number {
  const start = performance.now();
  run();
  return performance.now() - start;
}
