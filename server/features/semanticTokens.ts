/** What each word is, where only the meaning tells: a name of a block, a parameter, a computed quantity, a plain word. */
import { type AstNode, CstUtils, GrammarUtils, type LeafCstNode } from 'langium';
import {
  type SemanticTokens,
  SemanticTokensBuilder,
  type SemanticTokensDelta,
  SemanticTokensDeltaRequest,
  SemanticTokensRangeRequest,
  SemanticTokensRefreshRequest,
  SemanticTokensRequest,
} from 'vscode-languageserver';
import { z } from 'zod';
import {
  isArgument,
  isBlock,
  isCell,
  isColumn,
  isHeader,
  isParameter,
  isProperty,
  isReference,
  isUse,
  isWaive,
  isWithout,
  type Named,
  type Reference,
} from '../../language/generated/ast.ts';
import type { BroomDocument, Project } from '../project/project.ts';
import { meaningOf } from '../project/symbols.ts';
import type { Feature } from '../session.ts';
import { FUNCTIONS } from './hover.ts';

export const TOKEN_TYPES = [
  'keyword',
  'class',
  'variable',
  'parameter',
  'property',
  'namespace',
  'method',
  'function',
  'enumMember',
  'type',
  'event',
] as const;
export const TOKEN_MODIFIERS = ['declaration', 'readonly', 'defaultLibrary'] as const;
type TokenType = (typeof TOKEN_TYPES)[number];
type Modifier = (typeof TOKEN_MODIFIERS)[number];

export const semanticTokens: Feature = {
  capabilities: () => ({
    semanticTokensProvider: {
      legend: { tokenTypes: [...TOKEN_TYPES], tokenModifiers: [...TOKEN_MODIFIERS] },
      full: { delta: true },
      range: true,
    },
  }),
  register: session => {
    const { project } = session;
    /** The last answer for each file, for the difference to the next. */
    const builders = new Map<string, SemanticTokensBuilder>();
    const fill = (builder: SemanticTokensBuilder, document: BroomDocument, from = 0, to = Number.POSITIVE_INFINITY) => {
      for (const { line, character, length, type, modifiers } of tokensOf(project, document, from, to)) {
        builder.push(
          line,
          character,
          length,
          TOKEN_TYPES.indexOf(type),
          modifiers.reduce((bits, each) => bits | (1 << TOKEN_MODIFIERS.indexOf(each)), 0),
        );
      }
    };
    const builderOf = (address: string): SemanticTokensBuilder => {
      const builder = builders.get(address) ?? new SemanticTokensBuilder();
      builders.set(address, builder);
      return builder;
    };
    session.onDocument(
      SemanticTokensRequest.type,
      ({ document, address }): SemanticTokens => {
        const builder = new SemanticTokensBuilder();
        builders.set(address, builder);
        fill(builder, document);
        return builder.build();
      },
      { textOnly: true },
    );
    session.onDocument(
      SemanticTokensDeltaRequest.type,
      ({ document, address }, params): SemanticTokens | SemanticTokensDelta => {
        const builder = builderOf(address);
        builder.previousResult(z.string().catch('').parse(params.previousResultId));
        fill(builder, document);
        return builder.buildEdits();
      },
      { textOnly: true },
    );
    session.onDocument(
      SemanticTokensRangeRequest.type,
      ({ document }, params): SemanticTokens => {
        const builder = new SemanticTokensBuilder();
        fill(
          builder,
          document,
          document.textDocument.offsetAt(params.range.start),
          document.textDocument.offsetAt(params.range.end),
        );
        return builder.build();
      },
      { textOnly: true, ranged: true },
    );
    session.onChange.push(changed => {
      for (const address of changed) if (!project.isOpen(address)) builders.delete(address);
      if (changed.size > 1 && session.client.workspace?.semanticTokens?.refreshSupport) {
        void session.connection.sendRequest(SemanticTokensRefreshRequest.type).catch(() => undefined);
      }
    });
  },
};

interface Token {
  readonly line: number;
  readonly character: number;
  readonly length: number;
  readonly type: TokenType;
  readonly modifiers: readonly Modifier[];
}

function* tokensOf(project: Project, document: BroomDocument, from: number, to: number): Generator<Token> {
  const root = document.parseResult.value.$cstNode;
  if (root === undefined) return;
  for (const leaf of CstUtils.flattenCst(root)) {
    if (leaf.end <= from || leaf.offset >= to || leaf.length === 0 || leaf.hidden) continue;
    const said = classify(project, leaf);
    if (said === undefined || leaf.text.includes('\n')) continue;
    const { line, character } = leaf.range.start;
    yield { line, character, length: leaf.length, type: said[0], modifiers: said.slice(1) as Modifier[] };
  }
}

type Said = readonly [TokenType, ...Modifier[]];

function classify(project: Project, leaf: LeafCstNode): Said | undefined {
  const node = leaf.astNode;
  const { name } = leaf.tokenType;
  if (name === 'UNIT') return ['type'];
  if (name !== 'ID' && !/^[a-z]+$/.test(name)) return undefined;
  if (isReference(node)) return ofReference(project, node, leaf);
  if (isProperty(node))
    return is(node, 'name', leaf) ? (project.names.roleOfBinding(node) ? ['parameter'] : ['property']) : undefined;
  if (isBlock(node)) {
    if (is(node, 'kind', leaf)) return ['keyword'];
    if (is(node, 'name', leaf)) return [typeOf(node), 'declaration'];
    return ['keyword'];
  }
  if (isParameter(node)) return is(node, 'name', leaf) ? ['parameter', 'declaration'] : ['type'];
  if (isArgument(node)) return ['parameter'];
  if (isUse(node)) return is(node, 'name', leaf) ? ['namespace', 'declaration'] : ['keyword'];
  if (isWaive(node)) return is(node, 'check', leaf) ? ['event'] : ['keyword'];
  if (isWithout(node))
    return leaf.text === 'without' && leaf.offset === node.$cstNode?.offset ? ['keyword'] : ['variable'];
  if (isColumn(node)) return ['property', 'declaration'];
  if (isCell(node)) return ['variable'];
  return isHeader(node) || /^[a-z]+$/.test(name) ? ['keyword'] : undefined;
}

function is(node: AstNode, property: string, leaf: LeafCstNode): boolean {
  const cst = GrammarUtils.findNodeForProperty(node.$cstNode, property);
  return cst !== undefined && cst.offset === leaf.offset;
}

function ofReference(project: Project, node: Reference, leaf: LeafCstNode): Said | undefined {
  const words = [node.head, ...node.tail];
  const index = words.findIndex(word => word?.$refNode?.offset === leaf.offset);
  if (index < 0) return undefined;
  const named = meaningOf(project, node, index);
  if (named !== undefined) return [typeOf(named)];
  if (index > 0) return ['property', 'readonly'];
  if (node.call && FUNCTIONS[leaf.text]) return ['function', 'defaultLibrary'];
  return ['enumMember'];
}

function typeOf(named: Named): TokenType {
  if (isUse(named)) return 'namespace';
  if (isParameter(named)) return 'parameter';
  if (!isBlock(named)) return 'variable';
  if (named.kind === 'method') return 'method';
  if (named.kind === 'role') return 'parameter';
  return named.kind === 'step' ? 'function' : 'variable';
}
