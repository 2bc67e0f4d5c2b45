import { documentLinks } from '../../features/documentLinks.ts';
import { toRange } from '../convert.ts';
import type { Feature } from '../feature.ts';

export const documentLinksFeature: Feature = {
  capabilities: () => ({ documentLinkProvider: {} }),
  register(connection, workspace) {
    connection.onDocumentLinks(({ textDocument }, token) =>
      workspace().answer(textDocument.uri, token, [], (analysis, { lines }) =>
        documentLinks(analysis).map(({ span, target, tooltip }) => ({
          range: toRange(lines, span),
          target,
          tooltip,
        })),
      ),
    );
  },
};
