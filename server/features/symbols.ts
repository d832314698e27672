/** The outline of a file with the job's structure, and the names of the whole workspace. */
import { URI } from 'langium';
import {
  type DocumentSymbol,
  DocumentSymbolRequest,
  type SymbolInformation,
  SymbolKind,
  type WorkspaceSymbol,
  WorkspaceSymbolRequest,
} from 'vscode-languageserver';
import { z } from 'zod';
import type { Analysis } from '../../language/analysis/analyse.ts';
import { type Block, isBlock, isParameter, isRequire, isUse, isWaive } from '../../language/generated/ast.ts';
import { kinds, topKindWords } from '../../language/vocabulary/index.ts';
import { inBothSystems, pathOf, showingOf, signatureOf } from '../project/describe.ts';
import { textOf, workspaceFiles } from '../project/files.ts';
import { rangeIn, rangeOfNode } from '../project/positions.ts';
import type { BroomDocument } from '../project/project.ts';
import { declarationOf } from '../project/symbols.ts';
import type { Feature, Session } from '../session.ts';

export const symbols: Feature = {
  capabilities: () => ({
    documentSymbolProvider: { label: 'Broomline' },
    workspaceSymbolProvider: { workDoneProgress: true },
  }),
  register: session => {
    session.onDocument(
      DocumentSymbolRequest.type,
      ({ document, analysis, address }): DocumentSymbol[] | SymbolInformation[] => {
        const tree = outline(session, document, analysis);
        return session.client.textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === false ||
          !session.client.textDocument?.documentSymbol
          ? flat(tree, address, undefined)
          : tree;
      },
    );
    session.on(
      WorkspaceSymbolRequest.type,
      z.looseObject({ query: z.string() }),
      async ({ query }, pace): Promise<WorkspaceSymbol[]> => {
        const found: WorkspaceSymbol[] = [];
        for (const address of await workspaceFiles(session, pace)) {
          await pace.step();
          const text = await textOf(session, address);
          if (text !== undefined) found.push(...headings(text, session.project.addressOf(address), query));
          if (found.length >= MOST) break;
        }
        return found;
      },
    );
  },
};

const MOST = 2_000;

const KINDS_OF: Readonly<Record<string, SymbolKind>> = {
  job: SymbolKind.Package,
  place: SymbolKind.Struct,
  plant: SymbolKind.Object,
  method: SymbolKind.Class,
  work: SymbolKind.Event,
  time: SymbolKind.Interface,
  limits: SymbolKind.Constant,
  record: SymbolKind.Array,
};

function kindOf(word: string): SymbolKind {
  if (word === 'step') return SymbolKind.Function;
  if (word === 'role') return SymbolKind.TypeParameter;
  if (word === 'end') return SymbolKind.Field;
  return KINDS_OF[kinds.get(word)?.group ?? ''] ?? SymbolKind.Variable;
}

function outline(session: Session, document: BroomDocument, analysis: Analysis | undefined): DocumentSymbol[] {
  return document.parseResult.value.items.flatMap((item): DocumentSymbol[] => {
    const cst = item.$cstNode;
    if (cst === undefined) return [];
    const range = rangeOfNode(document, cst);
    if (isBlock(item)) return [ofBlock(session, document, item, analysis)];
    if (isUse(item))
      return [
        {
          name: item.path || 'use',
          detail: item.name ? `as ${item.name}` : '',
          kind: SymbolKind.Module,
          range,
          selectionRange: range,
        },
      ];
    if (isRequire(item))
      return [
        {
          name: `require ${item.condition?.$cstNode?.text ?? ''}`.trim(),
          detail: item.reason ?? '',
          kind: SymbolKind.Boolean,
          range,
          selectionRange: range,
        },
      ];
    if (isWaive(item))
      return [
        {
          name: `waive ${item.check ?? ''}`.trim(),
          detail: item.reason ?? '',
          kind: SymbolKind.Null,
          range,
          selectionRange: range,
        },
      ];
    return [];
  });
}

function ofBlock(
  session: Session,
  document: BroomDocument,
  block: Block,
  analysis: Analysis | undefined,
): DocumentSymbol {
  const range = rangeOfNode(document, block.$cstNode!);
  const name = declarationOf(block);
  const parameters = block.parameters?.parameters.filter(isParameter) ?? [];
  const children = [
    ...parameters.flatMap((each): DocumentSymbol[] => {
      const cst = each.$cstNode;
      if (!cst || !each.name) return [];
      return [
        {
          name: each.name,
          detail: signatureOf(each).slice(each.name.length + 2),
          kind: SymbolKind.TypeParameter,
          range: rangeOfNode(document, cst),
          selectionRange: rangeOfNode(document, cst),
        },
      ];
    }),
    ...block.entries.filter(isBlock).map(each => ofBlock(session, document, each, analysis)),
  ];
  const selectionRange = name && name.end <= block.$cstNode!.end ? rangeIn(document, name.start, name.end) : range;
  return {
    name: block.name ?? block.label ?? block.kind,
    detail: detailOf(session, block, analysis),
    kind: kindOf(block.kind),
    range,
    selectionRange,
    ...(children.length > 0 && { children }),
  };
}

/** The kind, and the one number that says most of it. */
function detailOf(session: Session, block: Block, analysis: Analysis | undefined): string {
  const explained = ['product', 'area']
    .map(each => analysis?.quantities.get(`${pathOf(block)}.${each}`))
    .find(each => each !== undefined);
  if (explained === undefined) return block.kind;
  const showing = showingOf(session, analysis, session.system(analysis));
  return `${block.kind}, ${explained.path.split('.').at(-1)} ${inBothSystems(explained.value, explained.kind, showing).split(' (')[0]}`;
}

function flat(tree: readonly DocumentSymbol[], uri: string, containerName: string | undefined): SymbolInformation[] {
  return tree.flatMap(({ name, kind, range, children = [] }) => [
    { name, kind, location: { uri, range }, ...(containerName !== undefined && { containerName }) },
    ...flat(children, uri, name),
  ]);
}

/** Headings of blocks, read line by line: the files of a workspace need not be parsed to be searched. */
function headings(text: string, uri: string, query: string): WorkspaceSymbol[] {
  const found: WorkspaceSymbol[] = [];
  const file = decodeURIComponent(URI.parse(uri).path.split('/').at(-1) ?? '');
  const pattern =
    /^([ \t]*)([a-z][a-z-]*)[ \t]+(?:"([^"\n]*)"|([\p{L}_][\p{L}\p{N}_-]*))(?=[ \t]*(?:\(|\{|like\b|$|\/\/))/gmu;
  let container = '';
  for (const match of text.matchAll(pattern)) {
    const [whole, indent, kind, label, name] = match;
    if (!kinds.has(kind!)) continue;
    const isTop = indent === '' && topKindWords.has(kind!);
    const own = label ?? name!;
    if (isTop) container = own;
    if (!matches(query, own) && !matches(query, `${kind} ${own}`)) continue;
    const offset = match.index + indent!.length;
    found.push({
      name: own,
      kind: kindOf(kind!),
      containerName: isTop ? file : `${container}, ${file}`,
      location: { uri, range: lineRange(text, offset, whole.length - indent!.length) },
    });
  }
  return found;
}

function lineRange(text: string, offset: number, length: number) {
  const before = text.slice(0, offset);
  const line = before.split('\n').length - 1;
  const character = offset - (before.lastIndexOf('\n') + 1);
  return { start: { line, character }, end: { line, character: character + length } };
}

/** Letters of the query in their order, as editors expect. */
function matches(query: string, name: string): boolean {
  let at = 0;
  const lower = name.toLowerCase();
  for (const letter of query.toLowerCase()) {
    at = lower.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}
