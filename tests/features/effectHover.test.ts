import { describe, expect, test } from 'vitest';
import { hover } from '../../server/features/hover.ts';
import { analysed } from '../support/check.ts';
import { planWithShot as plan } from '../support/plan.ts';

/** The hover on the effect of the one shot, without the blanks that only keep columns apart. */
function effectHover(...lines: readonly string[]): string {
  const text = plan(lines.map((line) => `        ${line}\n`).join(''), {
    spot: '    water: { kind: cascade }\n',
  });
  const markdown = hover(analysed(text), text.indexOf('effect: ') + 9)?.markdown ?? '';
  return markdown.replaceAll('\u00a0', ' ').replaceAll('&ensp;', '');
}

describe('the planned time', () => {
  test('of frames that are averaged counts together', () => {
    const frames = (count: number) =>
      effectHover('effect: cleared of people', 'shutter: 2 s', `frames: ${count}`);
    expect(frames(60)).toContain('60 × 2 s = 2 min, averaged: within');
    expect(frames(30)).toContain('30 × 2 s = 1 min, averaged: 1 stop too short');
    expect(frames(2000)).toContain('averaged: within');
    expect(effectHover('effect: textured', 'shutter: 1/60 s', 'frames: 60')).not.toContain('averaged');
  });

  test('of a mirror on calm water may be short', () => {
    const mirror = (state: string) =>
      effectHover('effect: mirror', `water: { kind: lake, state: ${state} }`, 'shutter: 1/2 s');
    expect(mirror('calm')).toContain(': within');
    expect(mirror('rippled')).toContain('too short');
  });

  test('says what water looks like outside the range', () => {
    expect(effectHover('effect: silky', 'shutter: 1/80 s')).toContain('neither frozen nor textured');
    expect(effectHover('effect: silky', 'shutter: 4 s')).not.toContain('water will look');
  });
});
