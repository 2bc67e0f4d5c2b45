import { SemanticTokensBuilder } from 'vscode-languageserver';
import {
  type SemanticToken,
  semanticTokens,
  tokenModifiers,
  tokenTypes,
} from '../../features/semanticTokens.ts';
import type { Lines } from '../../text/lines.ts';
import { toPosition, toSpan } from '../convert.ts';
import type { Feature } from '../feature.ts';

export const semanticTokensFeature: Feature = {
  capabilities: () => ({
    semanticTokensProvider: {
      legend: { tokenTypes: [...tokenTypes], tokenModifiers: [...tokenModifiers] },
      full: true,
      range: true,
    },
  }),
  register(connection, workspace) {
    connection.languages.semanticTokens.on(({ textDocument }, token) =>
      workspace().answer(textDocument.uri, token, { data: [] }, (analysis, { lines }) =>
        encoded(semanticTokens(analysis), lines),
      ),
    );
    connection.languages.semanticTokens.onRange(({ textDocument, range }, token) =>
      workspace().answer(textDocument.uri, token, { data: [] }, (analysis, { lines }) => {
        const wanted = toSpan(lines, range);
        const tokens = semanticTokens(analysis).filter(
          ({ span }) => span.end > wanted.start && span.start < wanted.end,
        );
        return encoded(tokens, lines);
      }),
    );
  },
};

/** Each token counts from the one before it, as the protocol wants. */
function encoded(tokens: readonly SemanticToken[], lines: Lines) {
  const builder = new SemanticTokensBuilder();
  for (const { span, type, modifiers = [] } of tokens) {
    const { line, character } = toPosition(lines, span.start);
    const flags = modifiers.reduce((sum, modifier) => sum | (1 << tokenModifiers.indexOf(modifier)), 0);
    builder.push(line, character, span.end - span.start, tokenTypes.indexOf(type), flags);
  }
  return builder.build();
}
