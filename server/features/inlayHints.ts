/** Key computed quantities at the ends of the lines that bring them about, and values in the other system of units. */
import { AstUtils } from 'langium';
import {
  type InlayHint,
  InlayHintKind,
  InlayHintRefreshRequest,
  InlayHintRequest,
  MarkupKind,
} from 'vscode-languageserver';
import type { Analysis } from '../../language/analysis/analyse.ts';
import type { Explained } from '../../language/explain/explain.ts';
import { type Block, isBlock, isList, isProperty, isQuantity, type Property } from '../../language/generated/ast.ts';
import { KINDS, type KindName, parseUnit, show, toSi } from '../../language/units/index.ts';
import { kinds, propertyOf } from '../../language/vocabulary/index.ts';
import { pathOf, quantityText, type Showing, showingOf } from '../project/describe.ts';
import type { BroomDocument } from '../project/project.ts';
import type { Feature, Session } from '../session.ts';

export const inlayHints: Feature = {
  capabilities: () => ({ inlayHintProvider: { resolveProvider: false } }),
  register: session => {
    session.onDocument(
      InlayHintRequest.type,
      ({ document, analysis }, params): InlayHint[] => {
        const { start, end } = params.range;
        return hintsOf(session, document, analysis).filter(
          ({ position }) => position.line >= start.line && position.line <= end.line,
        );
      },
      { ranged: true },
    );
    session.onSettings.push(() => {
      if (session.client.workspace?.inlayHint?.refreshSupport)
        void session.connection.sendRequest(InlayHintRefreshRequest.type).catch(() => undefined);
    });
  },
};

/** Behind which property of a kind which of its quantities is worth a look while writing. */
const BEHIND: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>> = {
  deposit: { stations: ['area'], thickness: ['rubber'] },
  work: { removes: ['area'], method: ['mix'], product: ['product'], bays: ['bayLength'] },
  sprayer: { spacing: ['nozzlesTimesSpacing'], fan: ['fanOverlap'] },
  broom: { angle: ['swept'], rotation: ['tipSpeed'] },
};

function hintsOf(session: Session, document: BroomDocument, analysis: Analysis | undefined): readonly InlayHint[] {
  const { hints } = session.settings;
  const showing = showingOf(session, analysis, session.system(analysis));
  const found: InlayHint[] = [];
  for (const node of AstUtils.streamAllContents(document.parseResult.value)) {
    if (!isProperty(node) || !isBlock(node.$container)) continue;
    if (hints.enabled) found.push(...computedBehind(document, node, node.$container, analysis, showing));
    if (hints.otherUnits) found.push(...otherUnits(document, node, node.$container, showing));
  }
  return found;
}

function computedBehind(
  document: BroomDocument,
  property: Property,
  block: Block,
  analysis: Analysis | undefined,
  showing: Showing,
): readonly InlayHint[] {
  const names = BEHIND[block.kind]?.[property.name] ?? [];
  const explained = names
    .flatMap(name => analysis?.quantities.get(`${pathOf(block)}.${name}`) ?? [])
    .filter(each => each.formula !== undefined);
  const cst = property.value?.$cstNode;
  if (explained.length === 0 || cst === undefined) return [];
  // A table grows downwards: its quantities stand behind its header.
  const text = document.textDocument.getText();
  const lineEnd = text.indexOf('\n', cst.offset);
  const end = cst.text.includes('\n')
    ? cst.offset + cst.text.split('\n')[0]!.trimEnd().length
    : Math.min(cst.end, lineEnd < 0 ? text.length : lineEnd);
  return [
    {
      position: document.textDocument.positionAt(end),
      label: explained.map(each => hintText(each, showing)).join(', '),
      kind: InlayHintKind.Type,
      paddingLeft: true,
      tooltip: {
        kind: MarkupKind.Markdown,
        value: explained.map(each => quantityText(each, showing)).join('\n\n---\n\n'),
      },
    },
  ];
}

function hintText({ path, value, kind }: Explained, showing: Showing): string {
  const word = path
    .split('.')
    .at(-1)!
    .replace(/[A-Z]/g, letter => ` ${letter.toLowerCase()}`);
  return `${word} ${show(value, KINDS[kind], showing.system, showing.currency === undefined ? {} : { currency: showing.currency })}`;
}

function otherUnits(
  document: BroomDocument,
  property: Property,
  block: Block,
  { system }: Showing,
): readonly InlayHint[] {
  const kind = kinds.get(block.kind);
  const type = kind && propertyOf(kind, property.name)?.property.type;
  const value = property.value;
  if (type?.is !== 'quantity' || !isList(value)) return [];
  const only = value.items.length === 1 && value.items[0]!.parts.length === 1 ? value.items[0]!.parts[0] : undefined;
  const unit = isQuantity(only) && only.unit !== undefined ? parseUnit(only.unit) : undefined;
  if (!isQuantity(only) || unit === undefined || unit.system === 'both') return [];
  const other = unit.system === 'metric' ? 'us' : 'metric';
  if (system === other) return [];
  const label = show(toSi(only.value, unit), KINDS[type.kind as KindName], other);
  return [
    {
      position: document.textDocument.positionAt(only.$cstNode!.end),
      label,
      kind: InlayHintKind.Type,
      paddingLeft: true,
    },
  ];
}
