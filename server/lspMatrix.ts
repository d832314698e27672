/**
 * Every method of the Language Server Protocol, version 3.17, and what this server does with it. The table in
 * DEVELOPERS.md is written from here, and a test holds it against what the server answers to `initialize`.
 */

export interface Method {
  readonly method: string;
  /** What it does here, or why it is not done. */
  readonly says: string;
  readonly supported: boolean;
  /** Where `initialize` announces it; a dot goes deeper. Missing where the protocol announces nothing. */
  readonly capability?: string;
}

const yes = (method: string, says: string, capability?: string): Method => ({
  method,
  says,
  supported: true,
  ...(capability && { capability }),
});
const no = (method: string, says: string, capability?: string): Method => ({
  method,
  says,
  supported: false,
  ...(capability && { capability }),
});

export const lspMethods: readonly Method[] = [
  // Life of the server
  yes('initialize', 'folders, settings, capabilities of the client'),
  yes('initialized', 'registers for changes of files and settings'),
  yes('shutdown', 'stops publishing'),
  yes('exit', 'ends the process'),
  yes('client/registerCapability', 'for watched files and settings'),
  no('client/unregisterCapability', 'what is registered holds as long as the session'),
  yes('$/setTrace', 'by the connection'),
  yes('$/logTrace', 'by the connection'),
  yes('$/cancelRequest', 'answered with error −32800; long work stops within a slice'),
  yes('$/progress', 'searches of the workspace and its diagnostics'),

  // Texts
  yes('textDocument/didOpen', 'the editor’s text stands above the disk’s', 'textDocumentSync'),
  yes('textDocument/didChange', 'incremental', 'textDocumentSync'),
  yes('textDocument/didClose', 'back to the text on disk', 'textDocumentSync'),
  yes('textDocument/didSave', 'files that could not be found are looked for again', 'textDocumentSync'),
  no('textDocument/willSave', 'nothing depends on it'),
  no('textDocument/willSaveWaitUntil', 'format on save goes by textDocument/formatting and source.fixAll.broomline'),
  no('notebookDocument/didOpen', 'a job is a text, not a notebook', 'notebookDocumentSync'),
  no('notebookDocument/didChange', 'a job is a text, not a notebook', 'notebookDocumentSync'),
  no('notebookDocument/didSave', 'a job is a text, not a notebook', 'notebookDocumentSync'),
  no('notebookDocument/didClose', 'a job is a text, not a notebook', 'notebookDocumentSync'),

  // Language features
  yes('textDocument/publishDiagnostics', 'for clients that do not pull'),
  yes('textDocument/diagnostic', 'for clients that pull', 'diagnosticProvider'),
  yes(
    'workspace/diagnostic',
    'open files, or all of the workspace by a setting',
    'diagnosticProvider.workspaceDiagnostics',
  ),
  yes('workspace/diagnostic/refresh', 'when another file or a setting changed'),
  yes(
    'textDocument/completion',
    'kinds, properties, words, names, units, quantities, arguments, files, checks',
    'completionProvider',
  ),
  yes('completionItem/resolve', 'documentation', 'completionProvider.resolveProvider'),
  yes('textDocument/hover', 'everything that has a meaning', 'hoverProvider'),
  yes('textDocument/signatureHelp', 'parameters of methods, functions', 'signatureHelpProvider'),
  yes('textDocument/declaration', 'the same as the definition', 'declarationProvider'),
  yes('textDocument/definition', 'names, files, computed quantities', 'definitionProvider'),
  no(
    'textDocument/typeDefinition',
    'the type of a block is its kind, which is defined in no file',
    'typeDefinitionProvider',
  ),
  yes('textDocument/implementation', 'machines that take a role, works that call a method', 'implementationProvider'),
  yes('textDocument/references', 'across the workspace', 'referencesProvider'),
  yes('textDocument/documentHighlight', 'in the file', 'documentHighlightProvider'),
  yes('textDocument/documentSymbol', 'the structure of the job', 'documentSymbolProvider'),
  yes('textDocument/codeAction', 'fixes, fix all, rebuilding', 'codeActionProvider'),
  no('codeAction/resolve', 'edits are cheap enough to come with the action'),
  yes('textDocument/codeLens', 'what a block comes to; how often it is used', 'codeLensProvider'),
  yes('codeLens/resolve', 'counts the uses', 'codeLensProvider.resolveProvider'),
  yes('workspace/codeLens/refresh', 'when a setting changed'),
  yes('textDocument/documentLink', 'files that are brought in', 'documentLinkProvider'),
  no('documentLink/resolve', 'links are complete at once'),
  no('textDocument/documentColor', 'the language has no colours', 'colorProvider'),
  no('textDocument/colorPresentation', 'the language has no colours', 'colorProvider'),
  yes('textDocument/formatting', 'one layout', 'documentFormattingProvider'),
  yes('textDocument/rangeFormatting', 'one layout', 'documentRangeFormattingProvider'),
  yes('textDocument/onTypeFormatting', 'after } and at the end of a line', 'documentOnTypeFormattingProvider'),
  yes('textDocument/rename', 'across the workspace', 'renameProvider'),
  yes('textDocument/prepareRename', 'names, and designators of runway ends', 'renameProvider.prepareProvider'),
  yes('textDocument/foldingRange', 'blocks, tables, comments, imports', 'foldingRangeProvider'),
  yes('textDocument/selectionRange', 'word, value, property, body, block', 'selectionRangeProvider'),
  no(
    'textDocument/linkedEditingRange',
    'a name stands in several files, and rename changes all of them',
    'linkedEditingRangeProvider',
  ),
  yes('textDocument/prepareCallHierarchy', 'methods and works', 'callHierarchyProvider'),
  yes('callHierarchy/incomingCalls', 'works that call a method', 'callHierarchyProvider'),
  yes('callHierarchy/outgoingCalls', 'the method that a work calls', 'callHierarchyProvider'),
  yes('textDocument/prepareTypeHierarchy', 'blocks that are like others', 'typeHierarchyProvider'),
  yes('typeHierarchy/supertypes', 'the block that one is like', 'typeHierarchyProvider'),
  yes('typeHierarchy/subtypes', 'blocks that are like it', 'typeHierarchyProvider'),
  yes('textDocument/semanticTokens/full', 'names, parameters, quantities, words', 'semanticTokensProvider.full'),
  yes(
    'textDocument/semanticTokens/full/delta',
    'the difference to the last answer',
    'semanticTokensProvider.full.delta',
  ),
  yes('textDocument/semanticTokens/range', 'what is in sight', 'semanticTokensProvider.range'),
  yes('workspace/semanticTokens/refresh', 'when a file that others use changed'),
  yes('textDocument/inlayHint', 'key quantities; other units by a setting', 'inlayHintProvider'),
  no('inlayHint/resolve', 'hints are complete at once'),
  yes('workspace/inlayHint/refresh', 'when a setting changed'),
  no(
    'textDocument/inlineValue',
    'shows values while a program is stopped, and nothing runs here',
    'inlineValueProvider',
  ),
  no('workspace/inlineValue/refresh', 'shows values while a program is stopped, and nothing runs here'),
  no('textDocument/moniker', 'links indexes of packages with each other; a job is one workspace', 'monikerProvider'),

  // Workspace
  yes('workspace/symbol', 'all files, without parsing them', 'workspaceSymbolProvider'),
  no('workspaceSymbol/resolve', 'symbols are complete at once'),
  yes('workspace/configuration', 'asked at the start and when settings change'),
  yes('workspace/didChangeConfiguration', 'checked; what is wrong is named and falls back to its default'),
  no('workspace/workspaceFolders', 'folders come with initialize and with changes'),
  yes('workspace/didChangeWorkspaceFolders', 'what may be read follows', 'workspace.workspaceFolders'),
  yes('workspace/didChangeWatchedFiles', '**/*.broom'),
  yes('workspace/willRenameFiles', 'use lines follow', 'workspace.fileOperations.willRename'),
  yes('workspace/didRenameFiles', 'files are looked for again', 'workspace.fileOperations.didRename'),
  no('workspace/willCreateFiles', 'nothing has to change for a new file'),
  yes('workspace/didCreateFiles', 'for clients that say so', 'workspace.fileOperations.didCreate'),
  no(
    'workspace/willDeleteFiles',
    'whether a use line of a deleted file goes is the author’s decision; the finding says where',
  ),
  yes('workspace/didDeleteFiles', 'for clients that say so', 'workspace.fileOperations.didDelete'),
  no(
    'workspace/executeCommand',
    'commands are the client’s; what the server can do comes as edits and requests',
    'executeCommandProvider',
  ),
  no('workspace/applyEdit', 'edits come with actions and renames; nothing is changed unasked'),

  // Window
  no('window/showMessage', 'a person is not interrupted; what is wrong is a diagnostic'),
  no('window/showMessageRequest', 'a person is not interrupted'),
  no('window/showDocument', 'nothing is opened unasked'),
  yes('window/logMessage', 'defects and settings that could not be used'),
  no('window/workDoneProgress/create', 'progress uses the token of the request'),
  yes('window/workDoneProgress/cancel', 'by the connection'),
  no('telemetry/event', 'none'),
];

/** The table for DEVELOPERS.md, Markdown. */
export function lspTable(): string {
  const rows = lspMethods.map(
    ({ method, supported, says }) => `| \`${method}\` | ${supported ? 'yes' : 'no'} | ${says} |`,
  );
  return ['| method | | |', '| --- | --- | --- |', ...rows].join('\n');
}
