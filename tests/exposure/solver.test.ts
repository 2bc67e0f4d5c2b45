import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dial, exactFNumber, exactIso } from '../../server/exposure/dial.ts';
import { apertureMarks } from '../../server/exposure/marks.ts';
import { shutterSetting } from '../../server/exposure/setting.ts';
import { type Candidate, type SolveInput, solve } from '../../server/exposure/solver.ts';

const neutral = (id: string, stops: number, more: Partial<Candidate> = {}): Candidate => {
  return { id, kind: 'neutral density', stops, spreadStops: 0.1, fits: true, mount: 'thread', ...more };
};

const apertures = apertureMarks[3].map(Number).filter((mark) => mark >= 4 && mark <= 22);

/** Half a second at f/14, ISO 64, and nothing in front of the lens. */
const bare: SolveInput = {
  rangeSeconds: { shortest: 20, longest: 40 },
  metered: { seconds: 1 / 2, fNumber: 14, iso: 64 },
  filters: [neutral('nd3', 3), neutral('nd6', 6), neutral('nd10', 10)],
  apertures,
  isos: [64, 100, 200, 400, 800],
  current: { filters: [], fNumber: 14, iso: 64 },
  maxFilters: 2,
  dial: dial(1 / 3, { shortestSeconds: 1 / 8000, longestSeconds: 30 }),
};

describe('the solver', () => {
  it('puts the six-stop filter on for 32 s', () => {
    const [first] = solve(bare);
    expect(first).toMatchObject({
      kind: 'single',
      filters: ['nd6'],
      fNumber: 14,
      iso: 64,
      changes: 1,
      frames: 1,
    });
    expect(first?.seconds).toBeCloseTo(32, 12);
    expect(first?.setting).toMatchObject({ kind: 'dial', label: '30 s' });
  });

  it('changes nothing when the plan is in the range already', () => {
    const [first] = solve({ ...bare, current: { filters: ['nd6'], fNumber: 14, iso: 64 } });
    expect(first).toMatchObject({ filters: ['nd6'], changes: 0 });
  });

  it('counts a swap of filters as one change', () => {
    const [first] = solve({ ...bare, current: { filters: ['nd3'], fNumber: 14, iso: 64 } });
    // Adding nd3 would not do; nd3 with a smaller aperture does not reach either.
    expect(first).toMatchObject({ filters: ['nd6'], changes: 1 });
  });

  it('counts a filter that comes off as a change', () => {
    const metered = { ...bare.metered, seconds: 32 };
    const [first] = solve({ ...bare, metered, current: { filters: ['nd6'], fNumber: 14, iso: 64 } });
    expect(first).toMatchObject({ filters: [], changes: 1 });
  });

  it('counts 32 s as the 30 s that a range asks for', () => {
    const [first] = solve({ ...bare, rangeSeconds: { shortest: 31, longest: 30 * 1.0001 } });
    expect(first?.filters).toEqual(['nd6']);
  });

  it('leaves out what does not fit, and does not fill more slots than the holder has', () => {
    const filters = [
      neutral('nd6', 6, { fits: false }),
      neutral('a', 3, { mount: 'slot' }),
      neutral('b', 3, { mount: 'slot' }),
    ];
    const two = solve({ ...bare, filters, holderSlots: 2, apertures: [14], isos: [64] });
    expect(two.map((solution) => solution.filters)).toEqual([['a', 'b']]);
    const one = solve({ ...bare, filters, holderSlots: 1, apertures: [14], isos: [64] });
    expect(one.every(({ kind }) => kind === 'averaging')).toBe(true);
  });

  describe('with polarizers', () => {
    const polarizer = (id: string): Candidate => ({ ...neutral(id, 1.5), kind: 'polarizer' });
    const filters = [...bare.filters, polarizer('pol'), polarizer('pol2')];
    const on = (...ids: string[]) => ({ filters: ids, fNumber: 14, iso: 64 });
    const counted = (input: SolveInput) =>
      solve({ ...input, limit: 1000 }).map((way) => way.filters.filter((id) => id.startsWith('pol')).length);

    it('keeps the one that is on the lens, and puts none on', () => {
      const kept = solve({ ...bare, filters, current: on('pol') });
      // 1/2 s through 3 + 1.5 stops is 11.3 s, and a stop smaller 22.6 s; through 6 + 1.5 it is 91 s, 1 1/3 stops too long.
      expect(kept[0]).toMatchObject({ filters: ['pol', 'nd3'], fNumber: 20 });
      expect(kept[1]).toMatchObject({ filters: ['pol', 'nd6'], fNumber: 9 });
      expect(new Set(counted({ ...bare, filters, current: on('pol') }))).toEqual(new Set([1]));
      expect(new Set(counted({ ...bare, filters }))).toEqual(new Set([0]));
    });

    it('puts one on, never two, where nothing else reaches and the picture allows it', () => {
      const weak = {
        ...bare,
        filters: filters.slice(-2),
        rangeSeconds: { shortest: 3, longest: 4 },
        isos: [64],
      };
      expect(new Set(counted(weak))).toEqual(new Set([1]));
      expect(solve({ ...weak, addPolarizer: false }).every(({ kind }) => kind === 'averaging')).toBe(true);
    });

    it('takes it off where nothing else reaches', () => {
      const input = {
        ...bare,
        filters,
        current: on('pol'),
        addPolarizer: false,
        isos: [64],
        apertures: [14],
      };
      expect(solve({ ...input, rangeSeconds: { shortest: 1 / 3, longest: 1 / 2 } })[0]).toMatchObject({
        filters: [],
        changes: 1,
      });
    });

    it('leaves one of two', () => {
      expect(new Set(counted({ ...bare, filters, current: on('pol', 'pol2') }))).toEqual(new Set([1]));
    });
  });

  it('leaves a colour filter where it is, counts it, and never puts one on', () => {
    const colour: Candidate = { ...neutral('yellow', 1), kind: 'other' };
    const filters = [colour, ...bare.filters];
    const input = { ...bare, filters, rangeSeconds: { shortest: 40, longest: 80 } };
    const kept = solve({ ...input, current: { filters: ['yellow'], fNumber: 14, iso: 64 } });
    expect(kept[0]).toMatchObject({ filters: ['yellow', 'nd6'], stops: 7 });
    expect(solve(input).some((way) => way.filters.includes('yellow'))).toBe(false);
  });

  it('names the filters in the order of the plan', () => {
    const input = { ...bare, rangeSeconds: { shortest: 200, longest: 300 } };
    const [first] = solve({ ...input, current: { filters: ['nd6', 'nd3'], fNumber: 14, iso: 64 } });
    expect(first).toMatchObject({ filters: ['nd6', 'nd3'], changes: 0 });
  });

  it('leaves a graduated filter where it is and never counts it', () => {
    const grad: Candidate = { ...neutral('grad', 2), kind: 'graduated', mount: 'slot' };
    const filters = [...bare.filters, grad];
    const kept = solve({ ...bare, filters, current: { filters: ['grad'], fNumber: 14, iso: 64 } });
    expect(kept[0]).toMatchObject({ filters: ['grad', 'nd6'], stops: 6, changes: 1 });
    expect(solve({ ...bare, filters }).some((solution) => solution.filters.includes('grad'))).toBe(false);
  });

  it('moves the aperture no further than it must, and offers the sharpest too', () => {
    const input = {
      ...bare,
      filters: [],
      isos: [64],
      rangeSeconds: { shortest: 1 / 8, longest: 1 / 4 },
      sharpestFNumber: 8,
    };
    // 1/2 s at f/14 is 0.25 s at f/10 and 0.16 s at f/8.
    expect(solve(input).map(({ fNumber }) => fNumber)).toEqual([10, 8]);
  });

  it('closes the aperture by a third for a third of a stop, and swaps filters for more than a stop', () => {
    const input = { ...bare, isos: [64], current: { filters: ['nd3'], fNumber: 14, iso: 64 } };
    const [nudge] = solve({ ...input, rangeSeconds: { shortest: 5, longest: 60 } });
    expect(nudge).toMatchObject({ filters: ['nd3'], fNumber: 16, changes: 1 });
    const [swap] = solve({ ...input, rangeSeconds: { shortest: 10, longest: 60 } });
    expect(swap).toMatchObject({ filters: ['nd6'], fNumber: 14, changes: 1 });
  });

  it('puts no filter on only to raise the ISO against it', () => {
    const input = {
      ...bare,
      apertures: [14],
      filters: [neutral('nd10', 10)],
      rangeSeconds: { shortest: 20, longest: 40 },
    };
    expect(
      solve({ ...input, filters: [...input.filters, neutral('nd6', 6)] }).map(({ filters }) => filters),
    ).toEqual([['nd6']]);
    // Where it is all there is, it is better than nothing: 512 s at ISO 64 are 41 s at ISO 800.
    expect(solve(input)[0]).toMatchObject({ filters: ['nd10'], iso: 800 });
  });

  it('counts what the dial keeps: a body with whole stops has no 1.4 s', () => {
    const wholeStops = dial(1, { shortestSeconds: 1 / 1000, longestSeconds: 30 });
    const input = { ...bare, filters: [], isos: [64], rangeSeconds: { shortest: 1.3, longest: 1.6 } };
    expect(solve(input)[0]).toMatchObject({ kind: 'single', fNumber: 22 });
    expect(solve({ ...input, dial: wholeStops, averaging: false })).toEqual([]);
  });

  it('does not change the aperture as well when the ISO alone is enough', () => {
    const input = { ...bare, filters: [], apertures: [11, 14], sharpestFNumber: 11 };
    const [first] = solve({ ...input, rangeSeconds: { shortest: 1 / 15, longest: 1 / 10 } });
    // ISO 400 is 2 2/3 stops from ISO 64 and makes 1/13 s of 1/2 s; f/11 and ISO 200 would come to about the same.
    expect(first).toMatchObject({ fNumber: 14, changes: 1 });
  });

  it('aims through the film: 32 s metered is 94 s on film', () => {
    const film = { exponent: 1.31, beyondSeconds: 1 };
    const [first] = solve({ ...bare, film, rangeSeconds: { shortest: 90, longest: 100 } });
    expect(first).toMatchObject({ filters: ['nd6'], changes: 1 });
    expect(first?.seconds).toBeCloseTo(93.7, 1);
  });

  it('offers to average frames when no filter reaches: log2 N stops', () => {
    const input = { ...bare, filters: [neutral('nd3', 3)], apertures: [14], isos: [64] };
    const [first] = solve(input);
    // The longest is 4 s; 20 s are five of them.
    expect(first).toMatchObject({ kind: 'averaging', filters: ['nd3'], frames: 5 });
    expect(first?.averagingStops).toBeCloseTo(Math.log2(5), 12);
    expect(solve({ ...input, film: { exponent: 1, beyondSeconds: 1 } })).toEqual([]);
  });

  it('offers to average where the body cannot keep its shutter open long enough', () => {
    const [first] = solve({ ...bare, rangeSeconds: { shortest: 120, longest: 240 }, bulb: 'none' });
    expect(first).toMatchObject({ kind: 'averaging', filters: ['nd6'], frames: 4 });
    const [bulb] = solve({
      ...bare,
      rangeSeconds: { shortest: 120, longest: 240 },
      bulb: { longestSeconds: 1800 },
    });
    expect(bulb?.kind).toBe('single');
  });

  it('has no answer when the light is too weak for a short time', () => {
    expect(solve({ ...bare, rangeSeconds: { shortest: 1 / 4000, longest: 1 / 2000 } })).toEqual([]);
  });

  it('finds a way whenever a search through everything finds one, and never with more changes', () => {
    const stops = fc.double({ min: 1, max: 12, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(stops, { maxLength: 4 }),
        fc.double({ min: -8, max: 4, noNaN: true }),
        fc.double({ min: -2, max: 9, noNaN: true }),
        fc.nat(15),
        (strengths, metered, wanted, mounted) => {
          const input: SolveInput = {
            ...bare,
            filters: strengths.map((strength, at) => neutral(`f${at}`, strength)),
            current: {
              ...bare.current,
              filters: strengths.flatMap((_, at) => (mounted & (1 << at) ? [`f${at}`] : [])),
            },
            metered: { ...bare.metered, seconds: 2 ** metered },
            rangeSeconds: { shortest: 2 ** wanted, longest: 2 ** (wanted + 1) },
            maxFilters: 4,
            sharpestFNumber: 8,
          };
          const fewest = fewestChanges(input);
          const [first] = solve(input);
          expect(first?.kind === 'single' ? first.changes : Number.POSITIVE_INFINITY).toBe(fewest);
          for (const { kind, seconds } of solve(input)) {
            if (kind === 'averaging') continue;
            expect(Math.log2(seconds)).toBeGreaterThanOrEqual(wanted - 0.1 - 1e-9);
            expect(Math.log2(seconds)).toBeLessThanOrEqual(wanted + 1.1 + 1e-9);
          }
        },
      ),
    );
  });
});

/** The fewest changes from the current plan, by trying everything. */
function fewestChanges({ filters, metered, rangeSeconds, apertures, isos, current }: SolveInput): number {
  let fewest = Number.POSITIVE_INFINITY;
  for (let set = 0; set < 2 ** filters.length; set += 1) {
    const mounted = filters.filter((_, at) => set & (1 << at));
    const stops = mounted.reduce((sum, filter) => sum + filter.stops, 0);
    for (const fNumber of apertures) {
      for (const iso of isos) {
        const light =
          (exactFNumber(fNumber) / exactFNumber(metered.fNumber)) ** 2 *
          (exactIso(metered.iso) / exactIso(iso));
        const time = metered.seconds * light * 2 ** stops;
        const inside = time >= rangeSeconds.shortest * 2 ** -0.1 && time <= rangeSeconds.longest * 2 ** 0.1;
        const kept = shutterSetting(time, bare.dial).seconds;
        const keeps = kept >= rangeSeconds.shortest * 2 ** -0.1 && kept <= rangeSeconds.longest * 2 ** 0.1;
        if (!inside || !keeps || time < 2 ** (-13 - 1 / 6)) continue;
        const stayed = mounted.filter(({ id }) => current.filters.includes(id)).length;
        const swaps = Math.max(mounted.length, current.filters.length) - stayed;
        const changes = swaps + Number(fNumber !== current.fNumber) + Number(iso !== current.iso);
        fewest = Math.min(fewest, changes);
      }
    }
  }
  return fewest;
}
