/** Who calls which method, and which block is like which other. */
import { AstUtils } from 'langium';
import {
  type CallHierarchyIncomingCall,
  CallHierarchyIncomingCallsRequest,
  type CallHierarchyItem,
  type CallHierarchyOutgoingCall,
  CallHierarchyOutgoingCallsRequest,
  CallHierarchyPrepareRequest,
  SymbolKind,
  type TypeHierarchyItem,
  TypeHierarchyPrepareRequest,
  TypeHierarchySubtypesRequest,
  TypeHierarchySupertypesRequest,
} from 'vscode-languageserver';
import { z } from 'zod';
import { type Block, isBlock } from '../../language/generated/ast.ts';
import { headingText } from '../project/describe.ts';
import { loadFilesWith } from '../project/files.ts';
import { offsetIn, rangeIn, rangeOfNode } from '../project/positions.ts';
import { declarationOf, documentsThatSee, occurrences, symbolAt } from '../project/symbols.ts';
import { type AboutPosition, type Feature, invalid, type Pace, type Session } from '../session.ts';
import { documentOf } from './definition.ts';

const position = z.object({ line: z.int().min(0), character: z.int().min(0) });
const itemRequest = z.looseObject({
  item: z.looseObject({ uri: z.string().min(1), selectionRange: z.object({ start: position, end: position }) }),
});

export const callHierarchy: Feature = {
  capabilities: () => ({ callHierarchyProvider: true }),
  register: session => {
    session.onPosition(
      CallHierarchyPrepareRequest.type,
      about => {
        const block = blockOf(session, about, ['method', 'work']);
        return block ? [itemOf(session, block)] : null;
      },
      { textOnly: true },
    );
    session.on(CallHierarchyIncomingCallsRequest.type, itemRequest, async ({ item }, pace) => {
      const block = await blockAt(session, item, pace);
      return block.kind === 'method' ? callersOf(session, block) : [];
    });
    session.on(
      CallHierarchyOutgoingCallsRequest.type,
      itemRequest,
      async ({ item }, pace): Promise<CallHierarchyOutgoingCall[]> => {
        const block = await blockAt(session, item, pace);
        const method = block.kind === 'work' ? session.project.names.methodOf(block) : undefined;
        const home = documentOf(block);
        if (method === undefined || home === undefined) return [];
        const fromRanges = occurrences(session.project, method, [home])
          .filter(each => each.is === 'reference' && isInside(each.node, block))
          .map(each => rangeIn(home, each.start, each.end));
        return [{ to: itemOf(session, method), fromRanges }];
      },
    );
  },
};

export const typeHierarchy: Feature = {
  capabilities: () => ({ typeHierarchyProvider: true }),
  register: session => {
    session.onPosition(
      TypeHierarchyPrepareRequest.type,
      about => {
        const block = blockOf(session, about);
        return block ? [itemOf(session, block) as TypeHierarchyItem] : null;
      },
      { textOnly: true },
    );
    session.on(TypeHierarchySupertypesRequest.type, itemRequest, async ({ item }, pace) => {
      const parent = session.project.names.parentOf(await blockAt(session, item, pace));
      return parent ? [itemOf(session, parent) as TypeHierarchyItem] : [];
    });
    session.on(TypeHierarchySubtypesRequest.type, itemRequest, async ({ item }, pace) => {
      const block = await blockAt(session, item, pace);
      const home = documentOf(block);
      if (home === undefined) return [];
      const found: TypeHierarchyItem[] = [];
      for (const document of documentsThatSee(session.project, home)) {
        for (const node of AstUtils.streamAllContents(document.parseResult.value)) {
          if (isBlock(node) && node.parent && session.project.names.parentOf(node) === block)
            found.push(itemOf(session, node) as TypeHierarchyItem);
        }
      }
      return found;
    });
  },
};

function callersOf(session: Session, method: Block): CallHierarchyIncomingCall[] {
  const home = documentOf(method);
  if (home === undefined) return [];
  const calls = new Map<Block, CallHierarchyIncomingCall>();
  for (const each of occurrences(session.project, method, documentsThatSee(session.project, home))) {
    const work =
      each.is === 'reference'
        ? AstUtils.getContainerOfType(each.node, (node): node is Block => isBlock(node) && node.kind === 'work')
        : undefined;
    if (work === undefined) continue;
    const range = rangeIn(each.document, each.start, each.end);
    const call = calls.get(work);
    if (call) call.fromRanges.push(range);
    else calls.set(work, { from: itemOf(session, work), fromRanges: [range] });
  }
  return [...calls.values()];
}

function blockOf(session: Session, { document, offset }: AboutPosition, wanted?: readonly string[]): Block | undefined {
  const symbol = symbolAt(session.project, document, offset)?.symbol;
  return isBlock(symbol) && (wanted === undefined || wanted.includes(symbol.kind)) ? symbol : undefined;
}

/** The block that an item stands for, in the text as it is now; files that name it are read. */
async function blockAt(session: Session, item: CallHierarchyItem | TypeHierarchyItem, pace: Pace): Promise<Block> {
  const named = item.name.split(' ').at(-1)!;
  await loadFilesWith(session, [named], pace);
  const document = await session.project.ready(item.uri);
  const symbol = document && symbolAt(session.project, document, offsetIn(document, item.selectionRange.start))?.symbol;
  if (!isBlock(symbol)) throw invalid(`There is no block any more where ${item.name} was.`);
  return symbol;
}

function itemOf({ project }: Session, block: Block): CallHierarchyItem {
  const document = documentOf(block)!;
  const name = declarationOf(block)!;
  return {
    name: headingText(block),
    kind: block.kind === 'method' ? SymbolKind.Class : SymbolKind.Event,
    detail: decodeURIComponent(document.uri.path.split('/').at(-1) ?? ''),
    uri: project.addressOf(document.uri.toString()),
    range: rangeOfNode(document, block.$cstNode!),
    selectionRange: rangeIn(document, name.start, name.end),
  };
}

function isInside(node: { $container?: unknown }, block: Block): boolean {
  for (let at: unknown = node; at; at = (at as { $container?: unknown }).$container) if (at === block) return true;
  return false;
}
