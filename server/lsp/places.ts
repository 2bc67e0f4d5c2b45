import type { Location } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import type { Place } from '../text/span.ts';
import { toRange } from './convert.ts';
import type { Workspace } from './workspace.ts';

/** Places in any document, in the client's own spelling where the document is open; those of unknown texts are left out. */
export function locations(
  places: readonly Place[],
  workspace: Workspace,
  analyses: readonly Analysis[],
): Location[] {
  return places.flatMap(({ uri, span }) => {
    const lines = workspace.linesOf(uri, ...analyses);
    if (lines === undefined) return [];
    return [{ uri: workspace.document(uri)?.uri ?? uri, range: toRange(lines, span) }];
  });
}
