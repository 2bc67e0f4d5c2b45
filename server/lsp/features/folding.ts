import { FoldingRangeKind } from 'vscode-languageserver';
import { folding } from '../../features/folding.ts';
import { toRange } from '../convert.ts';
import type { Feature } from '../feature.ts';

export const foldingFeature: Feature = {
  capabilities: () => ({ foldingRangeProvider: true }),
  register(connection, workspace) {
    connection.onFoldingRanges(({ textDocument }, token) =>
      workspace().answer(textDocument.uri, token, [], (analysis, { lines }) =>
        folding(analysis).map(({ span, kind }) => {
          const { start, end } = toRange(lines, span);
          return {
            startLine: start.line,
            endLine: end.line,
            ...(kind === 'comment' ? { kind: FoldingRangeKind.Comment } : {}),
          };
        }),
      ),
    );
  },
};
