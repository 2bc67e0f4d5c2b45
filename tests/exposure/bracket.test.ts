import { describe, expect, it } from 'vitest';
import { stopsBetween } from '../../server/exposure/apex.ts';
import { bracket, bracketFrames, graduatedStrength } from '../../server/exposure/bracket.ts';
import { usualDial } from '../../server/exposure/dial.ts';
import { ladder } from '../../server/exposure/ladder.ts';
import { averagingStops, framesToAverage, sequenceTime, shotTime } from '../../server/exposure/sequence.ts';
import { checkTruth, numberOf } from '../support/truth.ts';

checkTruth('bracketing', 6, (input) => {
  if ('scene_stops' in input) {
    const sceneStops = numberOf(input.scene_stops);
    const rangeStops = numberOf(input.sensor_stops);
    return { frames: bracketFrames({ sceneStops, rangeStops, stepStops: numberOf(input.step_stops) }) };
  }
  if ('sky_EV100' in input) {
    const skyEv = numberOf(input.sky_EV100);
    const foregroundEv = numberOf(input.foreground_EV100);
    const keepStops = numberOf(input.keep_difference_stops);
    return { graduated_stops: graduatedStrength({ skyEv, foregroundEv, keepStops }) };
  }
  return { range_stops: stopsBetween(numberOf(input.L_min_cd_m2), numberOf(input.L_max_cd_m2)) };
});

describe('a bracket', () => {
  it('needs four frames two stops apart for 17 stops on 12, and six frames one stop apart', () => {
    expect(bracketFrames({ sceneStops: 17, rangeStops: 12, stepStops: 2 })).toBe(4);
    expect(bracketFrames({ sceneStops: 17, rangeStops: 12, stepStops: 1 })).toBe(6);
  });

  it('covers the scene, and would not with one frame less', () => {
    for (const stepStops of [1 / 3, 2 / 3, 1, 1.5, 2, 3]) {
      for (let missing = 1; missing <= 12; missing += 1) {
        const frames = bracketFrames({ sceneStops: 10 + missing, rangeStops: 10, stepStops });
        expect(10 + (frames - 1) * stepStops).toBeGreaterThanOrEqual(10 + missing - 1e-6);
        expect(10 + (frames - 2) * stepStops).toBeLessThan(10 + missing);
      }
    }
  });

  it('lists its times about the middle, and how long they take', () => {
    const dial = usualDial();
    const { frames, openSeconds, totalSeconds } = bracket(
      { middleSeconds: 2, frames: 3, stepStops: 2, dial },
      { gapSeconds: 1, noiseReduction: true },
    );
    expect(frames.map(({ offsetStops }) => offsetStops)).toEqual([-2, 0, 2]);
    expect(frames.map(({ setting }) => setting.kind === 'dial' && setting.label)).toEqual([
      '0.5 s',
      '2 s',
      '8 s',
    ]);
    expect(openSeconds).toBe(10.5);
    // 0.5 s without, 2 s and 8 s with a dark frame, and two gaps.
    expect(totalSeconds).toBe(0.5 + 4 + 16 + 2);
  });

  it('has no frame at the middle when their number is even, and goes over to bulb where the dial ends', () => {
    const { frames } = bracket({ middleSeconds: 16, frames: 4, stepStops: 2, dial: usualDial() });
    expect(frames.map(({ offsetStops }) => offsetStops)).toEqual([-3, -1, 1, 3]);
    expect(frames.map(({ setting }) => setting.kind)).toEqual(['dial', 'dial', 'dial', 'bulb']);
    expect(frames[3]?.setting.seconds).toBe(128);
  });
});

it('a graduated filter keeps a stop unless told otherwise, and is never negative', () => {
  expect(graduatedStrength({ skyEv: 12, foregroundEv: 8 })).toBe(3);
  expect(graduatedStrength({ skyEv: 8, foregroundEv: 8 })).toBe(0);
});

describe('a series of frames', () => {
  it('has its gaps between the frames only', () => {
    expect(shotTime(30, 4, { gapSeconds: 2 })).toEqual({ openSeconds: 120, totalSeconds: 126 });
    expect(shotTime(30, 4, { gapSeconds: 2, noiseReduction: true }).totalSeconds).toBe(246);
    expect(sequenceTime([])).toEqual({ openSeconds: 0, totalSeconds: 0 });
  });

  it('takes as long whether counted as equal frames or one by one', () => {
    const options = { gapSeconds: 1.5, noiseReduction: true };
    expect(sequenceTime([8, 8, 8], options)).toEqual(shotTime(8, 3, options));
  });

  it('stands for log2 N stops when it is averaged', () => {
    expect(averagingStops(16)).toBe(4);
    expect(framesToAverage(128, 8)).toBe(16);
    expect(framesToAverage(129, 8)).toBe(17);
    expect(framesToAverage(1, 8)).toBe(1);
  });
});

describe('a ladder', () => {
  const input = {
    metered: { seconds: 1 / 2, fNumber: 14, iso: 64 },
    fNumber: 14,
    iso: 64,
    stops: 6,
    spreadStops: 0.1,
  };

  it('runs two stops each way by thirds', () => {
    const rungs = ladder(input);
    expect(rungs.length).toBe(13);
    expect(rungs[0]).toMatchObject({ meteredLabel: '1/8 s' });
    expect(rungs[0]?.filtered.filteredSeconds).toBeCloseTo(8, 12);
    expect(rungs[6]?.filtered.filteredSeconds).toBeCloseTo(32, 12);
    expect(rungs[12]?.filtered.setting).toMatchObject({ kind: 'bulb', text: '2 min 8 s' });
  });

  it('takes other ends and steps', () => {
    const rungs = ladder(input, { fromStops: -1, toStops: 1, stepStops: 1 });
    expect(rungs.map(({ meteredLabel }) => meteredLabel)).toEqual(['1/4 s', '0.5 s', '1 s']);
  });
});
