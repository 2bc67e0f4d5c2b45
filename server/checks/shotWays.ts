import type { Checkable } from '../analysis.ts';
import { framesToAverage } from '../exposure/sequence.ts';
import { shutterSetting } from '../exposure/setting.ts';
import type { Solution } from '../exposure/solver.ts';
import { aperture } from '../quantities/aperture.ts';
import { formatShutter } from '../quantities/shutter.ts';
import { type EffectRange, isWithin, stopsOutside } from '../schedule/effects.ts';
import { averagedFrames, expectedReading, shotSolutions } from '../schedule/solutions.ts';
import type { Fact } from '../text/finding.ts';
import { uncapitalized } from '../text/sentence.ts';
import { settingName } from './figures.ts';
import { mendShot, type ShotKeys, written } from './shotEdits.ts';
import type { ShotOfDay } from './shots.ts';

/** How many ways are offered. */
const most = 3;

/** More frames than this are not asked for. */
const mostFrames = 100;

/** How many stops too long (positive) or too short, frames that can be averaged put together. */
export function stopsOff(shot: ShotOfDay, range: EffectRange): number {
  const seconds = shot.exposure?.setting.seconds ?? 0;
  const off = stopsOutside(seconds, range);
  return off < 0 ? Math.min(0, stopsOutside(seconds * averagedFrames(shot), range)) : off;
}

/** One way, by its name and by what it writes. */
interface Way {
  readonly title: string;
  readonly keys: ShotKeys;
}

/** What can be done about a time that does not give its effect: a sentence, and the mends. */
export interface Ways {
  readonly sentence: string;
  readonly mends: readonly Fact[];
  /** Whether anything in the kit, or a stated time alone, reaches the range. */
  readonly found: boolean;
}

/**
 * The ways of a shot into a range of shutter times. A time that the plan states is stated anew, with filters, aperture
 * and ISO to go with it by the reading; without a reading by the light that is expected, and then the time alone is
 * offered too, since nothing is known for sure of the rest.
 */
export function waysInto(analysis: Checkable, shot: ShotOfDay, range: EffectRange): Ways {
  const { plan, bag, memory } = analysis;
  const isMetered = shot.exposure?.input !== undefined;
  const metered = isMetered ? undefined : expectedReading(shot);
  const solutions =
    plan === undefined
      ? []
      : shotSolutions(shot, shot.visit.spot, plan.model, bag, memory.sky, { range, metered });
  const [best] = solutions;
  const ways = solutions
    .slice(0, best?.kind === 'averaging' ? 1 : most)
    .map((way) => ({ title: titleOf(way, shot), keys: keysOf(way, shot) }));
  const found = best !== undefined;
  if (isMetered) {
    return {
      sentence: found ? `${sentenceOf(best, shot)}.` : nothing(shot, range),
      mends: mendsOf(ways),
      found,
    };
  }
  const { text, isSet, side } = statedEnd(shot, range);
  const alone = { title: `Set ${text}`, keys: { shutter: text } };
  const others = ways.filter(({ title }) => title !== alone.title);
  const inThatLight =
    found && others.length === ways.length
      ? `; in the light that is expected, ${uncapitalized(sentenceOf(best, shot))}`
      : '';
  const more = moreFrames(shot, range);
  const set = `et ${text} or ${side}${inThatLight}.`;
  return {
    sentence: more === undefined ? `S${set}` : `${more.title}, or s${set}`,
    mends: mendsOf([
      ...(more === undefined ? [] : [more]),
      ...(isSet && shot.shot.shutter !== undefined ? [alone] : []),
      ...others,
    ]),
    found: found || isSet,
  };

  function mendsOf(plain: readonly Way[]): readonly Fact[] {
    return written(plain.map(({ title, keys }) => mendShot(analysis, shot.shot, title, keys)));
  }
}

/** So many frames that those of a shot, which are averaged already, reach a range together. */
function moreFrames(shot: ShotOfDay, range: EffectRange): Way | undefined {
  const seconds = shot.exposure?.setting.seconds ?? 0;
  if (averagedFrames(shot) < 2 || seconds >= range.shortest) return undefined;
  const frames = String(framesToAverage(range.shortest, seconds));
  return Number(frames) > mostFrames ? undefined : { title: `Take ${frames} frames`, keys: { frames } };
}

/** What to do where nothing in the kit reaches a range. */
function nothing({ gear, exposure }: ShotOfDay, range: EffectRange): string {
  if ((exposure?.setting.seconds ?? 0) < range.shortest)
    return 'Nothing in the kit reaches that: bring another filter, or shoot in dimmer light.';
  return gear.film === undefined
    ? 'Nothing in the kit reaches that up to ISO 800: raise the ISO further, or shoot in brighter light.'
    : 'Nothing in the kit reaches that: take a faster film, or shoot in brighter light.';
}

/** The nearer end of a range, for a time that the plan states: as it is set on the body, where it can be. */
function statedEnd({ gear, exposure }: ShotOfDay, range: EffectRange) {
  const { dial, bulb } = gear;
  const long = (exposure?.setting.seconds ?? 0) > range.longest;
  const end = long ? range.longest : range.shortest;
  const reaches = ({ seconds }: { readonly seconds: number }) => isWithin(seconds, range);
  const onDial = long ? dial.positions.find(reaches) : dial.positions.findLast(reaches);
  const setting = shutterSetting(onDial?.seconds ?? end, dial, bulb);
  const isSet = reaches(setting);
  return {
    text: isSet ? settingName(setting) : formatShutter(end),
    isSet,
    side: long ? 'less' : 'more',
  };
}

/** What a way changes. */
interface Changes {
  readonly filters: boolean;
  readonly aperture: boolean;
  readonly iso: boolean;
}

function changesOf({ filters, fNumber, iso }: Solution, { gear, exposure }: ShotOfDay): Changes {
  const now = gear.filters.map(({ use }) => use.value);
  return {
    filters: filters.length !== now.length || !filters.every((id) => now.includes(id)),
    aperture: fNumber !== (exposure?.input?.fNumber ?? gear.fNumber),
    iso: iso !== gear.iso,
  };
}

/** `Use nd6: 13 s at f/14, ISO 200`, `Set f/13: 1 s`, `Average 4 frames of 30 s with nd6`: all that changes, by name. */
function titleOf(way: Solution, shot: ShotOfDay): string {
  const changes = changesOf(way, shot);
  const stack = way.filters.length === 0 ? 'no filter' : way.filters.join(' + ');
  const time = settingName(way.setting);
  const stop = aperture.format(way.fNumber);
  if (way.kind === 'averaging') {
    const with_ = changes.filters ? ` with ${stack}` : '';
    const at = [...(changes.aperture ? [stop] : []), ...(changes.iso ? [`ISO ${way.iso}`] : [])];
    return `Average ${way.frames} frames of ${time}${with_}${at.length === 0 ? '' : ` at ${at.join(', ')}`}`;
  }
  if (changes.filters) return `Use ${stack}: ${time} at ${stop}${changes.iso ? `, ISO ${way.iso}` : ''}`;
  const set = [...(changes.aperture ? [stop] : []), ...(changes.iso ? [`ISO ${way.iso}`] : [])];
  return set.length === 0 ? `Set ${time}` : `Set ${set.join(' and ')}: ${time}`;
}

function sentenceOf(way: Solution, shot: ShotOfDay): string {
  const title = titleOf(way, shot);
  if (way.kind !== 'averaging') return title;
  return `No single exposure reaches that with this kit; ${uncapitalized(title)} (\`frames: ${way.frames}\`)`;
}

function keysOf(way: Solution, { shot, ...rest }: ShotOfDay): ShotKeys {
  const changes = changesOf(way, { shot, ...rest });
  return {
    ...(changes.filters ? { filters: `[${way.filters.join(', ')}]` } : {}),
    ...(changes.aperture ? { aperture: aperture.format(way.fNumber) } : {}),
    ...(changes.iso ? { iso: String(way.iso) } : {}),
    ...(shot.shutter === undefined ? {} : { shutter: settingName(way.setting) }),
    ...(way.kind === 'averaging' ? { frames: String(way.frames) } : {}),
  };
}
