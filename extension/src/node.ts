/** The extension on the desktop and on remote machines: the server is a process of its own, spoken to over IPC. */
import type * as vscode from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { type Api, startExtension } from './extension.ts';

export function activate(context: vscode.ExtensionContext): Api {
  const module = context.asAbsolutePath('dist/server.js');
  // A larger young generation: what one key needs mostly dies before it is looked at. Still larger ones pause for longer.
  // And a collector that can be asked to work between two keys.
  const options = { execArgv: ['--max-semi-space-size=32', '--expose-gc'] };
  return startExtension(
    context,
    clientOptions =>
      new LanguageClient(
        'broomline',
        'Broomline',
        {
          run: { module, transport: TransportKind.ipc, options },
          debug: { module, transport: TransportKind.ipc, options: { execArgv: ['--nolazy', '--inspect=6029'] } },
        },
        clientOptions,
      ),
  );
}
