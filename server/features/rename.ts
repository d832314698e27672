/** Renaming a thing everywhere it is named, in every file of the workspace; refused where the result would mean something else. */
import { PrepareRenameRequest, type Range, RenameRequest, type WorkspaceEdit } from 'vscode-languageserver';
import { z } from 'zod';
import { isBlock, isUse, type Named } from '../../language/generated/ast.ts';
import { RESERVED } from '../../language/grammar/tokens.ts';
import { rangeIn } from '../project/positions.ts';
import { nameOf, type Occurrence, symbolAt } from '../project/symbols.ts';
import { type AboutPosition, type Feature, invalid, refused, type Session } from '../session.ts';
import { workspaceEdit } from './edits.ts';
import { everywhere } from './references.ts';

export const rename: Feature = {
  capabilities: client => ({
    renameProvider:
      client.textDocument?.rename?.prepareSupport === false ? true : { prepareProvider: true, workDoneProgress: true },
  }),
  register: session => {
    session.onPosition(
      PrepareRenameRequest.type,
      (about): { range: Range; placeholder: string } => {
        const found = renameable(session, about);
        return { range: rangeIn(about.document, found.start, found.end), placeholder: nameOf(found.symbol)! };
      },
      { textOnly: true },
    );
    session.onPosition(
      RenameRequest.type,
      async (about, params, pace): Promise<WorkspaceEdit> => {
        const newName = z.string().safeParse(params.newName);
        if (!newName.success) throw invalid('textDocument/rename: newName is missing.');
        const found = renameable(session, about);
        const isEnd = isBlock(found.symbol) && found.symbol.name === undefined;
        // Whoever sees the quotes in the text may type them too.
        const text = isEnd ? newName.data.replace(/^"(.*)"$/, '$1') : newName.data;
        const trouble = isEnd ? troubleWithDesignator(session, text) : troubleWith(session, text);
        if (trouble) throw refused(trouble);
        const all = await everywhere(session, found.symbol, pace);
        const taken = isEnd ? otherEnd(session, found.symbol, text) : taker(session, found.symbol, all, text);
        if (taken) throw refused(taken);
        return workspaceEdit(
          session,
          all.map(({ document, start, end }) => ({ document, start, end, text })),
        );
      },
      { textOnly: true },
    );
  },
};

function renameable(
  session: Session,
  { document, offset }: AboutPosition,
): { symbol: Named; start: number; end: number } {
  const found = symbolAt(session.project, document, offset);
  if (!found || nameOf(found.symbol) === undefined) {
    throw refused(
      session.t(
        'Only names that someone gave can be renamed: blocks, parameters, the prefixes of files, and the designators of runway ends.',
      ),
    );
  }
  return found;
}

const NAME =
  /^[A-Za-z_\u00C0-\u00D6\u00D8-\u00F6\u00F8-\u024F][\w\u00C0-\u00D6\u00D8-\u00F6\u00F8-\u024F]*(-[\w\u00C0-\u00D6\u00D8-\u00F6\u00F8-\u024F]+)*$/;

function troubleWith({ t }: Session, name: string): string | undefined {
  if (RESERVED.has(name)) return t("'{0}' is a word of the language and can't be a name.", name);
  if (!NAME.test(name))
    return t("'{0}' is no name. A name begins with a letter and goes on with letters, digits, _ or -.", name);
  return undefined;
}

function troubleWithDesignator({ t }: Session, name: string): string | undefined {
  if (/^(0[1-9]|[12][0-9]|3[0-6])[LRC]?$/.test(name)) return undefined;
  return t('"{0}" is no designator. Write two digits from 01 to 36, and L, R or C for parallel runways.', name);
}

/** Both ends of a runway may change, one after the other; that they fit each other is a check's business. */
function otherEnd({ t, project }: Session, symbol: Named, newName: string): string | undefined {
  const runway = symbol.$container;
  if (!isBlock(runway) || newName === nameOf(symbol)) return undefined;
  const taken = [...project.names.lineage(runway)].some(each =>
    each.entries.some(entry => isBlock(entry) && entry.label === newName),
  );
  return taken
    ? t('"{0}" is already an end of {1}. Choose another designator.', newName, nameOf(runway) ?? '')
    : undefined;
}

/** What would be mistaken for the thing, or the thing for it, if it had the new name. */
function taker(session: Session, symbol: Named, all: readonly Occurrence[], newName: string): string | undefined {
  if (newName === nameOf(symbol)) return undefined;
  const { names } = session.project;
  for (const { node, document, is } of all) {
    for (const visible of names.visibleNames(is === 'declaration' && isBlock(node) ? inside(node) : node)) {
      if (visible.name !== newName) continue;
      const file = decodeURIComponent(document.uri.path.split('/').at(-1) ?? '');
      const what = isBlock(visible.node)
        ? visible.node.kind
        : isUse(visible.node)
          ? session.t('file')
          : session.t('parameter');
      return session.t(
        '{0} is already the name of a {1} where {2} is used in {3}. Choose another name.',
        newName,
        what,
        nameOf(symbol)!,
        file,
      );
    }
  }
  return undefined;
}

/** A place among the neighbours of a block, so that their names are seen. */
function inside(node: { $container?: unknown }): never {
  return { $type: 'Reference', $container: node.$container } as never;
}
