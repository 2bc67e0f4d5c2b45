import { rules } from '../../checks/list.ts';
import { hover } from '../../features/hover.ts';
import { toOffset, toRange } from '../convert.ts';
import type { Feature } from '../feature.ts';
import { markup } from '../markup.ts';

export const hoverFeature: Feature = {
  capabilities: () => ({ hoverProvider: true }),
  register(connection, workspace) {
    connection.onHover(({ textDocument, position }, token) =>
      workspace().answer(textDocument.uri, token, null, (analysis, { lines }) => {
        const shown = hover(analysis, toOffset(lines, position), rules);
        if (shown === undefined) return null;
        const { span, markdown } = shown;
        return { range: toRange(lines, span), contents: markup(markdown, workspace().client.hoverMarkdown) };
      }),
    );
  },
};
