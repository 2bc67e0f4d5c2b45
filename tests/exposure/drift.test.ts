import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Drift, driftingSeconds, latestStart } from '../../server/exposure/drift.ts';

const startMs = Date.UTC(2027, 2, 20, 18, 30);
const seconds = (drift: Drift) => (drift.neverCompletes ? Number.POSITIVE_INFINITY : drift.seconds);

/** Light that changes by a number of stops every minute. */
const changing = (stopsPerMinute: number) => (instantMs: number) =>
  ((instantMs - startMs) / 60_000) * stopsPerMinute;

/** ∫ 2^(k·t) dt = wanted, solved by hand for light that changes at k stops a second: T = log2(1 + wanted·k·ln 2) / k. */
function byHand(wanted: number, stopsPerMinute: number): number {
  const k = stopsPerMinute / 60;
  const inside = 1 + wanted * k * Math.LN2;
  return inside > 0 ? Math.log2(inside) / k : Number.POSITIVE_INFINITY;
}

describe('an exposure in changing light', () => {
  it('takes the plain time in constant light', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-4, max: 14_000, noNaN: true }), (wantedSeconds) => {
        const drift = driftingSeconds({ wantedSeconds, startMs, lightStops: () => 0 });
        expect(seconds(drift) / wantedSeconds).toBeCloseTo(1, 12);
      }),
    );
  });

  it('takes half the time in twice the light', () => {
    expect(seconds(driftingSeconds({ wantedSeconds: 600, startMs, lightStops: () => 1 }))).toBeCloseTo(
      300,
      6,
    );
    expect(seconds(driftingSeconds({ wantedSeconds: 600, startMs, lightStops: () => -2 }))).toBeCloseTo(
      2400,
      6,
    );
  });

  it('agrees with the closed form for light that changes steadily', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 3000, noNaN: true }),
        fc.double({ min: -0.4, max: 0.4, noNaN: true }).filter((rate) => Math.abs(rate) > 1e-3),
        (wantedSeconds, rate) => {
          const expected = byHand(wantedSeconds, rate);
          if (expected > 14_000) return;
          const drift = driftingSeconds({ wantedSeconds, startMs, lightStops: changing(rate) });
          expect(seconds(drift) / expected).toBeCloseTo(1, 6);
        },
      ),
    );
  });

  it('never completes when the light fades too fast, and says what was collected', () => {
    // A stop every five minutes: all the light to come is 300 s / ln 2 = 433 s of metered light.
    const drift = driftingSeconds({ wantedSeconds: 600, startMs, lightStops: changing(-1 / 5) });
    expect(drift).toMatchObject({ neverCompletes: true, afterSeconds: 14_400 });
    expect(drift.neverCompletes && drift.collectedShare).toBeCloseTo(300 / Math.LN2 / 600, 6);
  });

  it('collects nothing in darkness', () => {
    const drift = driftingSeconds({ wantedSeconds: 10, startMs, lightStops: () => Number.NEGATIVE_INFINITY });
    expect(drift).toEqual({ neverCompletes: true, collectedShare: 0, afterSeconds: 14_400 });
  });

  it('completes at dawn though it starts too dark', () => {
    const expected = byHand(3600, 1 / 5);
    const drift = driftingSeconds({ wantedSeconds: 3600, startMs, lightStops: changing(1 / 5) });
    expect(seconds(drift)).toBeCloseTo(expected, 4);
    expect(seconds(drift)).toBeLessThan(3600);
  });

  it('follows a sudden step of light', () => {
    // The sun clears the land after 100 s and brings three stops: 100 s + (200 − 100) / 8.
    const lightStops = (instantMs: number) => (instantMs < startMs + 100_000 ? 0 : 3);
    expect(seconds(driftingSeconds({ wantedSeconds: 200, startMs, lightStops }))).toBeCloseTo(112.5, 0);
  });
});

describe('the latest start', () => {
  const fading = { wantedSeconds: 120, longestSeconds: 600, lightStops: changing(-1 / 5) };
  const hour = 3_600_000;

  it('is the last from which the exposure still completes', () => {
    const latest = latestStart({ ...fading, fromMs: startMs - hour, toMs: startMs + hour }) ?? 0;
    expect(driftingSeconds({ ...fading, startMs: latest }).neverCompletes).toBe(false);
    expect(driftingSeconds({ ...fading, startMs: latest + 2000 }).neverCompletes).toBe(true);
    // By hand: from a start s the ten minutes give 2^(−s/300) · (300/ln 2)·(1 − 2^−2) seconds.
    const byHandSeconds = 300 * Math.log2(((300 / Math.LN2) * 0.75) / 120);
    expect((latest - startMs) / 1000).toBeCloseTo(byHandSeconds, -0.5);
  });

  it('is the end of the time asked about when that still works', () => {
    expect(latestStart({ ...fading, fromMs: startMs - hour, toMs: startMs })).toBe(startMs);
  });

  it('is none when no start works', () => {
    expect(latestStart({ ...fading, fromMs: startMs + 2 * hour, toMs: startMs + 3 * hour })).toBeNull();
  });
});
