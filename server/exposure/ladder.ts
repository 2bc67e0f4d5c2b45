import { usualDial } from './dial.ts';
import { type FilteredExposure, type FilteredExposureInput, filteredExposure } from './exposure.ts';

/** One rung: what to set if the meter, on the spot, says something else than planned. */
export interface Rung {
  /** From the planned reading; negative is a shorter metered time, in brighter light. */
  readonly offsetStops: number;
  readonly meteredSeconds: number;
  /** The marking nearest to the metered time: "1/4 s". */
  readonly meteredLabel: string;
  readonly filtered: FilteredExposure;
}

export interface LadderOptions {
  readonly fromStops?: number;
  readonly toStops?: number;
  /** Third stops unless said otherwise. */
  readonly stepStops?: number;
}

/** Metered times about the planned one, two stops each way by third stops, with the filtered exposure for each. */
export function ladder(input: FilteredExposureInput, options: LadderOptions = {}): readonly Rung[] {
  const { fromStops = -2, toStops = 2, stepStops = 1 / 3 } = options;
  const dial = input.dial ?? usualDial();
  const first = Math.ceil(fromStops / stepStops - 1e-9);
  const last = Math.floor(toStops / stepStops + 1e-9);
  return Array.from({ length: Math.max(last - first + 1, 0) }, (_, place) => {
    const offsetStops = (first + place) * stepStops;
    const meteredSeconds = input.metered.seconds * 2 ** offsetStops;
    const metered = { ...input.metered, seconds: meteredSeconds };
    const meteredLabel = `${dial.nearest(meteredSeconds).label} s`;
    return {
      offsetStops,
      meteredSeconds,
      meteredLabel,
      filtered: filteredExposure({ ...input, metered, dial }),
    };
  });
}
