/**
 * The extension: it starts the language server's client, and wires commands, preview and status to it. What differs
 * between the desktop and a browser is only how the server is started, which node.ts and browser.ts bring along.
 *
 * `startExtension` returns before the server runs: opening a file must not wait for it.
 */
import * as vscode from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import { registerCheckPages } from './checkPages.ts';
import { registerConvert } from './convert.ts';
import { registerNewFiles } from './create/commands.ts';
import { registerSample } from './create/sample.ts';
import { registerExplain } from './explain.ts';
import { answerForFiles } from './files.ts';
import { registerLenses } from './lenses.ts';
import { type PreviewDrawn, registerPreview } from './preview/panel.ts';
import { Server } from './server.ts';
import { registerStatus } from './status.ts';
import { registerTables } from './tables.ts';

export const LANGUAGE = 'broomline';

/** What `activate` hands to whoever asks for the extension: our own tests. */
export interface Api {
  /** Fulfilled once the server answers. */
  readonly ready: Promise<void>;
  /** What the preview says that it has drawn last; undefined before that. */
  readonly drawn: () => PreviewDrawn | undefined;
}

export type MakeClient = (options: LanguageClientOptions) => BaseLanguageClient;

export function startExtension(context: vscode.ExtensionContext, makeClient: MakeClient): Api {
  const log = vscode.window.createOutputChannel('Broomline', { log: true });
  const client = makeClient({
    documentSelector: [{ language: LANGUAGE }],
    outputChannel: log,
    initializationOptions: {
      settings: plain(vscode.workspace.getConfiguration(LANGUAGE)),
      words: vscode.l10n.bundle,
    },
  });
  answerForFiles(client);
  const server = new Server(client, log);
  const own = (disposable: vscode.Disposable) => context.subscriptions.push(disposable);
  own(log);
  own({ dispose: () => void server.stop() });
  own(vscode.commands.registerCommand('broomline.restartServer', () => server.restart()));
  own(vscode.commands.registerCommand('broomline.showLog', () => log.show()));
  registerNewFiles(context);
  registerSample(context);
  registerExplain(context, server);
  registerLenses(context, server);
  registerConvert(context);
  registerTables(context, server);
  registerCheckPages(context, server);
  registerStatus(context, server);
  const preview = registerPreview(context, server);
  const ready = server.start();
  return { ready, drawn: preview.drawn };
}

/** The settings as they go over the wire: what the editor hands out is a proxy with methods. */
function plain(settings: vscode.WorkspaceConfiguration): unknown {
  return JSON.parse(JSON.stringify(settings));
}
