import { describe, expect, it } from 'vitest';
import { stackStops } from '../../server/exposure/stack.ts';

describe('a stack of filters', () => {
  it('adds the strengths: 6 + 3 stops and a polarizer of 1.5 are 10.5 (arithmetic of ISO 5 densities)', () => {
    const { stops } = stackStops([
      { id: 'nd6', kind: 'neutral density', labelStops: 6 },
      { id: 'nd3', kind: 'neutral density', labelStops: 3 },
      { id: 'pol', kind: 'polarizer' },
    ]);
    expect(stops).toBe(10.5);
    // Published worked value (group nd, case 12): 1/125 s through these is 11.585 s.
    expect((1 / 125) * 2 ** stops).toBeCloseTo(11.58524, 4);
  });

  it('lets the measured strength win over the label', () => {
    const { stops, spreadStops, lines } = stackStops([
      { id: 'nd6', kind: 'neutral density', labelStops: 6, measuredStops: 6.4 },
    ]);
    expect(stops).toBe(6.4);
    expect(spreadStops).toBe(0.1);
    expect(lines[0]).toMatchObject({ basis: 'measured', label: '6.4 stops, measured' });
  });

  it('trusts a label to a third of a stop, and to half a stop from ten stops', () => {
    const spread = (labelStops: number) =>
      stackStops([{ id: 'a', kind: 'neutral density', labelStops }]).spreadStops;
    expect(spread(6)).toBeCloseTo(1 / 3, 12);
    expect(spread(9)).toBeCloseTo(1 / 3, 12);
    expect(spread(10)).toBe(0.5);
    // Density 3.0, sold as ten stops.
    expect(spread(3 / Math.log10(2))).toBe(0.5);
  });

  it('adds independent spreads as the root of the sum of squares', () => {
    const { spreadStops } = stackStops([
      { id: 'a', kind: 'neutral density', labelStops: 3 },
      { id: 'b', kind: 'neutral density', labelStops: 10 },
    ]);
    expect(spreadStops).toBeCloseTo(Math.sqrt(1 / 9 + 1 / 4), 12);
  });

  it('does not count a graduated filter, which holds back the sky only', () => {
    const { stops, spreadStops, lines } = stackStops([{ id: 'grad', kind: 'graduated', labelStops: 2 }]);
    expect([stops, spreadStops, lines[0]?.basis]).toEqual([0, 0, 'sky only']);
  });

  it('takes the stated loss of a polarizer, and says when a strength is unknown', () => {
    const { stops, lines } = stackStops([
      { id: 'pol', kind: 'polarizer', lossStops: 1.3 },
      { id: 'blue', kind: 'other' },
    ]);
    expect(stops).toBe(1.3);
    expect(lines.map(({ basis }) => basis)).toEqual(['stated loss', 'unknown']);
  });

  it('is nothing when it is empty', () => {
    expect(stackStops([])).toEqual({ stops: 0, spreadStops: 0, lines: [] });
  });
});
