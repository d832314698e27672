/** The extension in a browser: the server runs in a web worker beside it. */
import * as vscode from 'vscode';
import { BrowserMessageReader, BrowserMessageWriter, LanguageClient } from 'vscode-languageclient/browser';
import { type Api, startExtension } from './extension.ts';

// Extensions in a browser run in a worker themselves; only this much of it is used.
declare const Worker: new (address: string, options: { name: string }) => object;

export function activate(context: vscode.ExtensionContext): Api {
  const address = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server.js').toString(true);
  return startExtension(
    context,
    clientOptions =>
      new LanguageClient(
        'broomline',
        'Broomline',
        // Called again at each start, so that 'restart' brings a new worker. The editor puts a class of its own in the
        // place of Worker, which the client does not recognise; so it gets the two ends of the wire.
        async () => {
          const worker = new Worker(address, { name: 'Broomline' }) as ConstructorParameters<
            typeof BrowserMessageReader
          >[0];
          return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
        },
        clientOptions,
      ),
  );
}
