/** The files that a file brings in, as links. */
import { GrammarUtils } from 'langium';
import { type DocumentLink, DocumentLinkRequest } from 'vscode-languageserver';
import { rangeIn } from '../project/positions.ts';
import type { Feature } from '../session.ts';

export const links: Feature = {
  capabilities: () => ({ documentLinkProvider: { resolveProvider: false } }),
  register: session =>
    session.onDocument(
      DocumentLinkRequest.type,
      ({ document }): DocumentLink[] =>
        session.project.imports.of(document).flatMap(({ use, uri, state }) => {
          const path = GrammarUtils.findNodeForProperty(use.$cstNode, 'path');
          if (path === undefined || uri === undefined || !['ok', 'cyclic', 'duplicate'].includes(state)) return [];
          return [
            {
              range: rangeIn(document, path.offset + 1, Math.max(path.offset + 1, path.end - 1)),
              target: session.project.addressOf(uri.toString()),
              tooltip: session.t('Open the file'),
            },
          ];
        }),
      { textOnly: true },
    ),
};
