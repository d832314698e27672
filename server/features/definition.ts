/** Where a name is declared, where a file that is brought in lies, and who stands for a role. */
import { GrammarUtils } from 'langium';
import {
  DeclarationRequest,
  DefinitionRequest,
  ImplementationRequest,
  type Location,
  type LocationLink,
} from 'vscode-languageserver';
import { isBlock, isReference, isUse, isWaive, type Named } from '../../language/generated/ast.ts';
import { locationOf, rangeIn } from '../project/positions.ts';
import type { BroomDocument, Project } from '../project/project.ts';
import { declarationOf, documentsThatSee, leafAt, meaningOf, occurrences, symbolAt } from '../project/symbols.ts';
import type { AboutPosition, Feature, Session } from '../session.ts';
import { computedAt } from './hover.ts';

export const definition: Feature = {
  capabilities: () => ({ definitionProvider: true, declarationProvider: true, implementationProvider: true }),
  register: session => {
    const answer = (about: AboutPosition) => definitionsAt(session, about);
    session.onPosition(DefinitionRequest.type, answer as never);
    session.onPosition(DeclarationRequest.type, answer as never);
    session.onPosition(ImplementationRequest.type, about => implementationsAt(session, about));
  },
};

function definitionsAt(
  session: Session,
  { document, analysis, offset }: AboutPosition,
): LocationLink[] | Location[] | null {
  const { project } = session;
  const links = session.client.textDocument?.definition?.linkSupport === true;
  const answer = (origin: { start: number; end: number }, target: LocationLink): LocationLink[] | Location[] =>
    links
      ? [{ ...target, originSelectionRange: rangeIn(document, origin.start, origin.end) }]
      : [{ uri: target.targetUri, range: target.targetSelectionRange }];

  const found = symbolAt(project, document, offset);
  if (found) {
    const target = targetOf(project, found.symbol);
    return target && answer(found, target);
  }
  const leaf = leafAt(document, offset);
  const node = leaf?.astNode;
  if (leaf === undefined || node === undefined) return null;
  if (isUse(node)) {
    const file = project.imports.targetOf(node);
    const path = GrammarUtils.findNodeForProperty(node.$cstNode, 'path');
    if (file === undefined || path === undefined) return null;
    return answer({ start: path.offset, end: path.end }, topOf(project, file));
  }
  if (isReference(node)) {
    const words = [node.head, ...node.tail];
    const index = words.findIndex(
      word => word?.$refNode !== undefined && word.$refNode.offset <= offset && offset <= word.$refNode.end,
    );
    // A computed quantity has no line of its own: it belongs to the block in front of it.
    const explained = index < 0 ? undefined : computedAt(project, node, index, analysis);
    const owner = words.map((_, i) => (i < index ? meaningOf(project, node, i) : undefined)).findLast(isBlock);
    const target = owner && targetOf(project, owner);
    if (explained && target) return answer({ start: node.$cstNode!.offset, end: words[index]!.$refNode!.end }, target);
  }
  if (isWaive(node)) {
    // The findings that the waiver is about.
    const about = (analysis?.findings ?? []).filter(
      each => each.code === node.check && each.waived?.place.start === node.$cstNode?.offset,
    );
    const locations = about.flatMap(each => locationOf(project, each.place) ?? []);
    return locations.length > 0 ? locations : null;
  }
  return null;
}

function targetOf(project: Project, symbol: Named): LocationLink | null {
  const place = declarationOf(symbol);
  const document = documentOf(symbol);
  const cst = symbol.$cstNode;
  if (place === undefined || document === undefined || cst === undefined) return null;
  return {
    targetUri: project.addressOf(document.uri.toString()),
    targetRange: rangeIn(document, cst.offset, cst.end),
    targetSelectionRange: rangeIn(document, place.start, place.end),
  };
}

function topOf(project: Project, document: BroomDocument): LocationLink {
  const start = rangeIn(document, 0, 0);
  return { targetUri: project.addressOf(document.uri.toString()), targetRange: start, targetSelectionRange: start };
}

export function documentOf(symbol: Named): BroomDocument | undefined {
  let at: { $container?: unknown; $document?: unknown } = symbol;
  while (at.$container) at = at.$container as typeof at;
  return at.$document as BroomDocument | undefined;
}

/** For a role, the machines that works bind to it; for a method, the works that call it. */
function implementationsAt(session: Session, { document, offset }: AboutPosition): Location[] | null {
  const { project } = session;
  const found = symbolAt(project, document, offset);
  if (!found || !isBlock(found.symbol) || (found.symbol.kind !== 'role' && found.symbol.kind !== 'method')) return null;
  const home = documentOf(found.symbol);
  if (home === undefined) return null;
  const wanted = found.symbol.kind === 'role' ? 'binding' : 'reference';
  return occurrences(project, found.symbol, documentsThatSee(project, home))
    .filter(each => each.is === wanted && (wanted === 'binding' || isInWork(each.node)))
    .map(each => ({
      uri: project.addressOf(each.document.uri.toString()),
      range: rangeIn(each.document, each.start, each.end),
    }));
}

function isInWork(node: { $container?: unknown }): boolean {
  for (let at = node as { $container?: unknown; kind?: string } | undefined; at; at = at.$container as typeof at) {
    if (at.kind === 'work') return true;
  }
  return false;
}
