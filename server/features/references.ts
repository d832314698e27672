/** Everywhere a thing is named: across files for references, in one file for highlights. */
import {
  type DocumentHighlight,
  DocumentHighlightKind,
  DocumentHighlightRequest,
  type Location,
  ReferencesRequest,
} from 'vscode-languageserver';
import type { Named } from '../../language/generated/ast.ts';
import { loadFilesWith } from '../project/files.ts';
import { rangeIn } from '../project/positions.ts';
import { documentsThatSee, nameOf, type Occurrence, occurrences, symbolAt } from '../project/symbols.ts';
import type { Feature, Pace, Session } from '../session.ts';
import { documentOf } from './definition.ts';

export const references: Feature = {
  capabilities: () => ({ referencesProvider: { workDoneProgress: true }, documentHighlightProvider: true }),
  register: session => {
    session.onPosition(
      ReferencesRequest.type,
      async ({ document, offset }, params, pace): Promise<Location[] | null> => {
        const found = symbolAt(session.project, document, offset);
        if (!found) return null;
        const all = await everywhere(session, found.symbol, pace);
        return all
          .filter(each => params.context?.includeDeclaration !== false || each.is !== 'declaration')
          .map(each => locationFor(session, each));
      },
      { textOnly: true },
    );
    session.onPosition(
      DocumentHighlightRequest.type,
      ({ document, offset }): DocumentHighlight[] | null => {
        const found = symbolAt(session.project, document, offset);
        if (!found) return null;
        return occurrences(session.project, found.symbol, [document]).map(each => ({
          range: rangeIn(document, each.start, each.end),
          kind: each.is === 'reference' ? DocumentHighlightKind.Read : DocumentHighlightKind.Write,
        }));
      },
      { textOnly: true },
    );
  },
};

export function locationFor(
  { project }: Session,
  { document, start, end }: Pick<Occurrence, 'document' | 'start' | 'end'>,
): Location {
  return { uri: project.addressOf(document.uri.toString()), range: rangeIn(document, start, end) };
}

/** All places of the workspace, those in files nobody has opened too; they are read if they hold the name. */
export async function everywhere(session: Session, symbol: Named, pace: Pace): Promise<readonly Occurrence[]> {
  const { project } = session;
  const name = nameOf(symbol);
  const home = documentOf(symbol);
  if (name === undefined || home === undefined) return [];
  const homeAddress = home.uri.toString();
  const file = home.uri.path.split('/').at(-1)!;
  pace.progress?.begin(session.t('Looking for {0}', name), 0, undefined, true);
  // A file that brings in the declaring one says that file's name.
  await loadFilesWith(session, [name, file], pace);
  pace.progress?.done();
  const now = project.documentOf(homeAddress);
  // The text may have changed while files were read; the thing is then looked up in the new one.
  const meant = now === home ? symbol : sameIn(session, home, now, symbol);
  return meant && now ? occurrences(project, meant, documentsThatSee(project, now)) : [];
}

function sameIn(
  session: Session,
  before: Occurrence['document'],
  now: Occurrence['document'] | undefined,
  symbol: Named,
): Named | undefined {
  const cst = symbol.$cstNode;
  if (now === undefined || cst === undefined || now.textDocument.getText() !== before.textDocument.getText())
    return undefined;
  const own = occurrences(session.project, symbol, [before]).find(each => each.is === 'declaration');
  return own && symbolAt(session.project, now, own.start)?.symbol;
}
