import type { Self } from '../plan/table.ts';
import type { Related } from '../text/finding.ts';
import type { Place } from '../text/span.ts';

/** Another place that has part in a finding; none when the thing is not written. */
export function also(place: Place | undefined, message: string): readonly Related[] {
  return place === undefined ? [] : [{ uri: place.uri, span: place.span, message }];
}

/** Where a finding about a whole section is shown. */
export function headOf({ self }: { readonly self: Self }): Place {
  return { uri: self.uri, span: self.head };
}
