import { format } from '../../features/format.ts';
import { toRange } from '../convert.ts';
import type { Feature } from '../feature.ts';

export const formatFeature: Feature = {
  capabilities: () => ({ documentFormattingProvider: true }),
  register(connection, workspace) {
    // How many blanks an indentation has is the format's own affair, as in the published plans.
    connection.onDocumentFormatting(({ textDocument }, token) =>
      workspace().answer(textDocument.uri, token, [], (analysis, { lines }) =>
        format(analysis).map(({ span, text }) => ({ range: toRange(lines, span), newText: text })),
      ),
    );
  },
};
