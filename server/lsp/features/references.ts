import { references } from '../../features/references.ts';
import { toOffset } from '../convert.ts';
import type { Feature } from '../feature.ts';
import { locations } from '../places.ts';

export const referencesFeature: Feature = {
  capabilities: () => ({ referencesProvider: true }),
  register(connection, workspace) {
    connection.onReferences(({ textDocument, position, context }, token) =>
      workspace().answer(textDocument.uri, token, [], async (analysis, document) => {
        const others = await workspace().related(document);
        const offset = toOffset(document.lines, position);
        const places = references(others, analysis, offset, context.includeDeclaration);
        return locations(places, workspace(), [analysis, ...others]);
      }),
    );
  },
};
