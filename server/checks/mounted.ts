import type { DayShot } from '../schedule/day.ts';
import type { FilterUse } from '../schedule/gear.ts';

/** The polarizer on the lens of a shot. */
export function mountedPolarizer({ gear }: DayShot): FilterUse | undefined {
  return gear.filters.find(({ filter }) => filter.kind?.value === 'polarizer');
}

/** The graduated filters on the lens of a shot. */
export function mountedGraduated({ gear }: DayShot): readonly FilterUse[] {
  return gear.filters.filter(({ filter }) => filter.kind?.value === 'graduated');
}
