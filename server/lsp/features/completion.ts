import {
  CompletionItemKind,
  InsertTextFormat,
  InsertTextMode,
  type CompletionItem as Item,
} from 'vscode-languageserver';
import { rules } from '../../checks/list.ts';
import { type CompletionItem, type CompletionKind, completion } from '../../features/completion.ts';
import type { Lines } from '../../text/lines.ts';
import type { Client } from '../client.ts';
import { toOffset, toRange } from '../convert.ts';
import type { OpenDocument } from '../document.ts';
import type { Feature } from '../feature.ts';
import { markup } from '../markup.ts';
import { isKit } from '../names.ts';
import type { Workspace } from '../workspace.ts';

/** Each kind has a picture of its own in the usual editors. */
const kinds: Readonly<Record<CompletionKind, CompletionItemKind>> = {
  key: CompletionItemKind.Property,
  value: CompletionItemKind.Value,
  word: CompletionItemKind.EnumMember,
  id: CompletionItemKind.Reference,
  stack: CompletionItemKind.Struct,
  file: CompletionItemKind.File,
  code: CompletionItemKind.Constant,
};

export const completionFeature: Feature = {
  capabilities: () => ({ completionProvider: { triggerCharacters: [' ', ':', '[', ',', '@'] } }),
  register(connection, workspace) {
    connection.onCompletion(({ textDocument, position }, token) =>
      workspace().answer(textDocument.uri, token, null, async (analysis, document) => {
        const offset = toOffset(document.lines, position);
        const kits = await kitsFor(workspace(), document, offset);
        const items = completion(analysis, offset, { rules, kits });
        return {
          // What fits depends on what has been typed: the client asks again.
          isIncomplete: true,
          items: items.map((item) => toItem(item, document.lines, workspace().client)),
        };
      }),
    );
  },
};

/** The kits that could be named, looked for only on a line that names one. */
async function kitsFor(
  workspace: Workspace,
  { text, lines }: OpenDocument,
  offset: number,
): Promise<readonly string[]> {
  const { start, end } = lines.lineSpan(lines.position(offset).line);
  if (!/^\ufeff?["']?kit["']?[ \t]{0,99}:/.test(text.slice(start, Math.min(end, start + 200)))) return [];
  return (await workspace.files.list()).filter(isKit);
}

function toItem(item: CompletionItem, lines: Lines, client: Client): Item {
  const { span, text, label, detail, documentation, kind, sort, filter, additional = [] } = item;
  const isSnippet = item.snippet === true && client.snippets;
  return {
    label,
    kind: kinds[kind],
    sortText: sort,
    filterText: filter ?? label,
    insertTextMode: InsertTextMode.asIs,
    insertTextFormat: isSnippet ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    textEdit: {
      range: toRange(lines, span),
      newText: item.snippet === true && !isSnippet ? withoutStops(text) : text,
    },
    ...(detail === undefined ? {} : { detail }),
    ...(detail === undefined || !client.completionLabelDetails
      ? {}
      : { labelDetails: { description: detail } }),
    ...(documentation === undefined
      ? {}
      : { documentation: markup(documentation, client.completionMarkdown) }),
    ...(additional.length === 0
      ? {}
      : {
          additionalTextEdits: additional.map((edit) => ({
            range: toRange(lines, edit.span),
            newText: edit.text,
          })),
        }),
  };
}

/** The text of a snippet for a client that knows none: without the places where the cursor would go. */
function withoutStops(snippet: string): string {
  return snippet.replace(/\\([\\$}])|\$\d+/g, (_, escaped: string | undefined) => escaped ?? '');
}
