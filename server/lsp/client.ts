import { type InitializeParams, MarkupKind } from 'vscode-languageserver';

/** What the client can do, as far as it changes what the server does. */
export interface Client {
  readonly hoverMarkdown: boolean;
  readonly completionMarkdown: boolean;
  readonly snippets: boolean;
  /** It shows a text beside every completion of the list, not only beside the one in focus. */
  readonly completionLabelDetails: boolean;
  readonly relatedInformation: boolean;
  readonly nestedOutline: boolean;
  readonly codeActionLiterals: boolean;
  readonly documentChanges: boolean;
  readonly preparesRename: boolean;
  readonly pullsConfiguration: boolean;
  readonly registersConfiguration: boolean;
  readonly registersWatchers: boolean;
  readonly workspaceFolders: boolean;
  readonly refreshesHints: boolean;
  /** It answers `shootplan/readFile` and `shootplan/listFiles`. */
  readonly readsFiles: boolean;
}

/** Reads the client's capabilities; whatever is left out counts as missing. */
export function clientOf({ capabilities, initializationOptions }: InitializeParams): Client {
  const { workspace, textDocument } = capabilities;
  const options: unknown = initializationOptions;
  return {
    hoverMarkdown: textDocument?.hover?.contentFormat?.includes(MarkupKind.Markdown) === true,
    completionMarkdown:
      textDocument?.completion?.completionItem?.documentationFormat?.includes(MarkupKind.Markdown) === true,
    snippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    completionLabelDetails: textDocument?.completion?.completionItem?.labelDetailsSupport === true,
    relatedInformation: textDocument?.publishDiagnostics?.relatedInformation === true,
    nestedOutline: textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    codeActionLiterals: textDocument?.codeAction?.codeActionLiteralSupport !== undefined,
    preparesRename: textDocument?.rename?.prepareSupport === true,
    documentChanges: workspace?.workspaceEdit?.documentChanges === true,
    pullsConfiguration: workspace?.configuration === true,
    registersConfiguration: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    registersWatchers: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    workspaceFolders: workspace?.workspaceFolders === true,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    readsFiles:
      typeof options === 'object' &&
      options !== null &&
      (options as { clientFiles?: unknown }).clientFiles === true,
  };
}
