/** What the lines above blocks do when they are clicked. */
import * as vscode from 'vscode';
import { z } from 'zod';
import { pickQuantity, showExplanation } from './explain.ts';
import type { Server } from './server.ts';

const position = z.object({ line: z.int(), character: z.int() });
const location = z.object({ uri: z.string(), range: z.object({ start: position, end: position }) });

export function registerLenses(context: vscode.ExtensionContext, server: Server): void {
  context.subscriptions.push(
    vscode.commands.registerCommand(
      'broomline.showReferences',
      async (uri: unknown, at: unknown, places: unknown): Promise<void> => {
        const address = z.string().parse(uri);
        const start = position.parse(at);
        const found = z.array(location).parse(places);
        await vscode.commands.executeCommand(
          'editor.action.showReferences',
          vscode.Uri.parse(address),
          placeOf(start),
          found.map(
            each =>
              new vscode.Location(
                vscode.Uri.parse(each.uri),
                new vscode.Range(placeOf(each.range.start), placeOf(each.range.end)),
              ),
          ),
        );
      },
    ),
    vscode.commands.registerCommand('broomline.showQuantities', async (uri: unknown, path: unknown): Promise<void> => {
      const address = z.string().parse(uri);
      const block = z.string().parse(path);
      const chosen = await pickQuantity(server, address, each => each.startsWith(`${block}.`));
      if (chosen !== undefined) await showExplanation(address, chosen);
    }),
  );
}

function placeOf({ line, character }: z.infer<typeof position>): vscode.Position {
  return new vscode.Position(line, character);
}
