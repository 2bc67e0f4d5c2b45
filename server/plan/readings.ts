import type { Quantity, Reading } from '../quantities/quantity.ts';

/** Scalars that were read before: a reading follows from the kind and the text alone, so it need not be made twice. */
export interface Readings {
  of<T>(quantity: Quantity<T>, text: string): Reading<T>;
}

/** How many texts of one kind are kept, and how long one may be to be kept. */
const kept = 5000;
const longest = 200;

export function createReadings(): Readings {
  const byKind = new Map<Quantity<unknown>, Map<string, Reading<unknown>>>();
  return {
    of<T>(quantity: Quantity<T>, text: string): Reading<T> {
      if (text.length > longest) return quantity.parse(text);
      let readings = byKind.get(quantity as Quantity<unknown>);
      if (readings === undefined || readings.size > kept) {
        readings = new Map();
        byKind.set(quantity as Quantity<unknown>, readings);
      }
      const known = readings.get(text);
      if (known !== undefined) return known as Reading<T>;
      const reading = quantity.parse(text);
      readings.set(text, reading);
      return reading;
    },
  };
}
