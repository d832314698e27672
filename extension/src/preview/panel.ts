import type * as vscode from 'vscode';
import type { Server } from '../server.ts';
export interface PreviewDrawn {
  readonly headline: string;
}
export function registerPreview(
  _context: vscode.ExtensionContext,
  _server: Server,
): { drawn: () => PreviewDrawn | undefined } {
  return { drawn: () => undefined };
}
export function previewedSpec(): string | undefined {
  return undefined;
}
