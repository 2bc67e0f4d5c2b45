import { definition } from '../../features/definition.ts';
import { toOffset } from '../convert.ts';
import type { Feature } from '../feature.ts';
import { locations } from '../places.ts';

export const definitionFeature: Feature = {
  capabilities: () => ({ definitionProvider: true }),
  register(connection, workspace) {
    connection.onDefinition(({ textDocument, position }, token) =>
      workspace().answer(textDocument.uri, token, [], (analysis, { lines }) =>
        locations(definition(analysis, toOffset(lines, position)), workspace(), [analysis]),
      ),
    );
  },
};
