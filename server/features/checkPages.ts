/**
 * The page of each check as a document that the server itself provides: `broomline-check:/jet-too-slow.md`. So a code in
 * the list of problems leads to its page with no network, on any machine, also in a browser.
 */
import { type ClientCapabilities, TextDocumentContentRequest } from 'vscode-languageserver';
import { z } from 'zod';
import { checkPage } from '../../language/checks/page.ts';
import { checkByCode } from '../../language/checks/registry.ts';
import { type Feature, invalid } from '../session.ts';

export const SCHEME = 'broomline-check';

export function pageAddress(code: string): string {
  return `${SCHEME}:/${code}.md`;
}

/** Only a client that asks the server for documents can open such an address. */
export function servesPages(client: ClientCapabilities): boolean {
  return client.workspace?.textDocumentContent !== undefined;
}

/** The page of a check, Markdown. */
export function pageOf(code: string): string | undefined {
  const check = checkByCode.get(code);
  return check && checkPage(check);
}

export const checkPages: Feature = {
  capabilities: client => (servesPages(client) ? { workspace: { textDocumentContent: { schemes: [SCHEME] } } } : {}),
  register: session => {
    session.on(TextDocumentContentRequest.type, z.looseObject({ uri: z.string() }), async ({ uri }) => {
      const code = /^broomline-check:\/+([\w-]+)\.md$/.exec(uri)?.[1];
      const text = code === undefined ? undefined : pageOf(code);
      if (text === undefined) throw invalid(`There is no page at ${uri}.`);
      return { text };
    });
  },
};
