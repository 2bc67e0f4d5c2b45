import { inlayHints } from '../../features/inlayHints.ts';
import { toPosition, toSpan } from '../convert.ts';
import type { Feature } from '../feature.ts';
import { markup } from '../markup.ts';

export const inlayHintsFeature: Feature = {
  capabilities: () => ({ inlayHintProvider: true }),
  register(connection, workspace) {
    connection.languages.inlayHint.on(({ textDocument, range }, token) =>
      workspace().answer(textDocument.uri, token, [], (analysis, { lines, settings }) =>
        inlayHints(analysis, toSpan(lines, range), settings.hints).map(({ offset, label, tooltip }) => ({
          position: toPosition(lines, offset),
          label,
          tooltip: markup(tooltip, workspace().client.hoverMarkdown),
          paddingLeft: true,
        })),
      ),
    );
  },
};
