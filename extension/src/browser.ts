/** The extension in a browser: the server runs in a web worker beside it. */
import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { type Api, startExtension } from './extension.ts';

// Extensions in a browser run in a worker themselves; only this much of it is used.
declare const Worker: new (address: string, options: { name: string }) => object;

export function activate(context: vscode.ExtensionContext): Api {
  const address = vscode.Uri.joinPath(context.extensionUri, 'dist', 'worker.js').toString(true);
  return startExtension(
    context,
    clientOptions =>
      new LanguageClient(
        'broomline',
        'Broomline',
        // Called again at each start, so that 'restart' brings a new worker.
        async () => new Worker(address, { name: 'Broomline' }) as never,
        clientOptions,
      ),
  );
}
