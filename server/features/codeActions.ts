/** Repairs for findings, 'fix all' where nothing can go wrong, and rebuilding that keeps what the text means. */
import { AstUtils, type CstNode, GrammarUtils, URI } from 'langium';
import { type CodeAction, CodeActionKind, CodeActionRequest, type Diagnostic, type Range } from 'vscode-languageserver';
import { z } from 'zod';
import type { Edit, Finding, Fix } from '../../language/checks/check.ts';
import { checkByCode } from '../../language/checks/registry.ts';
import {
  type Block,
  isArgument,
  isBlock,
  isParameter,
  isPhrase,
  isProperty,
  isQuantity,
  isReference,
  type Parameter,
  type Quantity,
} from '../../language/generated/ast.ts';
import {
  convertLiteral,
  KINDS,
  type KindName,
  kindOf,
  likelyUnits,
  magnitudeOf,
  parseUnit,
} from '../../language/units/index.ts';
import { kinds, propertyOf, propertyTable } from '../../language/vocabulary/index.ts';
import { slice } from '../project/positions.ts';
import type { BroomDocument } from '../project/project.ts';
import { documentsThatSee, leafAt, occurrences } from '../project/symbols.ts';
import type { About, Feature, Pace, Session } from '../session.ts';
import { diagnosticOf, findingsIn } from './diagnostics.ts';
import { type Change, createsFiles, workspaceEdit } from './edits.ts';
import { everywhere } from './references.ts';

/** One step of indentation, as the formatter has it. */
const INDENT = '    ';

export const FIX_ALL = 'source.fixAll.broomline';

export const codeActions: Feature = {
  capabilities: () => ({
    codeActionProvider: {
      codeActionKinds: [
        CodeActionKind.QuickFix,
        CodeActionKind.RefactorExtract,
        CodeActionKind.RefactorInline,
        CodeActionKind.RefactorRewrite,
        FIX_ALL,
      ],
    },
  }),
  register: session =>
    session.onDocument(
      CodeActionRequest.type,
      async (about, params, pace): Promise<CodeAction[]> => {
        const context = z.looseObject({ only: z.array(z.string()).optional() }).safeParse(params.context ?? {});
        const only = context.success ? context.data.only : undefined;
        const wants = (kind: string) =>
          only === undefined || only.some(each => kind === each || kind.startsWith(`${each}.`) || each === '');
        const selected = spanOf(about.document, params.range);
        return [
          ...(wants(CodeActionKind.QuickFix) ? quickFixes(session, about, selected) : []),
          ...(only !== undefined && wants(FIX_ALL) ? fixAll(session, about) : []),
          ...(wants(CodeActionKind.RefactorRewrite)
            ? [...convert(session, about, selected), ...fillIn(session, about, selected)]
            : []),
          ...(wants(CodeActionKind.RefactorExtract) ? extract(session, about, selected) : []),
          ...(wants(CodeActionKind.RefactorInline) ? await inline(session, about, selected, pace) : []),
        ];
      },
      { ranged: true },
    ),
};

interface Span {
  readonly start: number;
  readonly end: number;
}

function spanOf(document: BroomDocument, range: Range): Span {
  const [a, b] = [document.textDocument.offsetAt(range.start), document.textDocument.offsetAt(range.end)];
  return { start: Math.min(a, b), end: Math.max(a, b) };
}

function touches(a: Span, b: Span): boolean {
  return a.start <= b.end && b.start <= a.end;
}

// --- repairs ---

function quickFixes(session: Session, about: About, selected: Span): readonly CodeAction[] {
  const { document } = about;
  return findingsIn(session.project, document)
    .filter(finding => touches(finding.place, selected))
    .flatMap(finding => {
      const diagnostics = [diagnosticOf(session, document, finding)];
      const fixes = finding.fixes.flatMap((fix, i): CodeAction[] => {
        const changes = changesOf(session, fix.edits);
        if (changes === undefined) return [];
        return [
          {
            title: fix.title,
            kind: CodeActionKind.QuickFix,
            diagnostics,
            edit: workspaceEdit(session, changes),
            ...(i === 0 && (fix.safe || finding.fixes.length === 1) && { isPreferred: true }),
          },
        ];
      });
      return [...fixes, ...waive(session, about, finding, diagnostics)];
    });
}

/** The edits of a fix on the files as they are loaded; undefined where one of them is not. */
function changesOf({ project }: Session, edits: readonly Edit[]): readonly Change[] | undefined {
  const changes: Change[] = [];
  for (const { place, text } of edits) {
    const document = project.documentOf(place.file);
    if (document === undefined) return undefined;
    changes.push({ document, start: place.start, end: place.end, text });
  }
  return changes;
}

/** All safe fixes of the file that don't touch each other; the rest comes with the next run. */
function fixAll(session: Session, { document }: About): readonly CodeAction[] {
  const key = document.uri.toString();
  const taken: Span[] = [];
  const changes: Change[] = [];
  for (const finding of findingsIn(session.project, document)) {
    if (finding.waived) continue;
    const fix: Fix | undefined = finding.fixes.find(
      each => each.safe && each.edits.every(edit => edit.place.file === key),
    );
    const edits = fix && changesOf(session, fix.edits);
    if (!edits || edits.some(edit => taken.some(other => touches(edit, other)))) continue;
    taken.push(...edits);
    changes.push(...edits);
  }
  if (changes.length === 0) return [];
  return [{ title: session.t('Apply all safe fixes'), kind: FIX_ALL, edit: workspaceEdit(session, changes) }];
}

/** A waiver with its blanks: it does not count before someone fills in reason and name. */
function waive(
  session: Session,
  { document, analysis, text }: About,
  finding: Finding,
  diagnostics: Diagnostic[],
): readonly CodeAction[] {
  const check = checkByCode.get(finding.code);
  if (
    !check?.waivable ||
    finding.waived ||
    analysis === undefined ||
    analysis.job.isLibrary ||
    finding.place.file !== document.uri.toString()
  )
    return [];
  const on = finding.about && /^[\p{L}_][\p{L}\p{N}_.-]*$/u.test(finding.about.name) ? ` on ${finding.about.name}` : '';
  const line = `waive ${finding.code}${on} because "" by ""${analysis.job.date ? ` until ${analysis.job.date}` : ''}\n`;
  const last = document.parseResult.value.items.findLast(item => item.$type === 'Waive')?.$cstNode;
  const change: Change = last
    ? { document, start: last.end, end: last.end, text: `\n${line.trimEnd()}` }
    : {
        document,
        start: text.length,
        end: text.length,
        text: `${text.endsWith('\n') || text === '' ? '' : '\n'}\n${line}`,
      };
  return [
    {
      title: on
        ? session.t('Waive this finding on {0}, with reason and name to fill in', on.slice(' on '.length))
        : session.t('Waive this finding, with reason and name to fill in'),
      kind: CodeActionKind.QuickFix,
      diagnostics,
      edit: workspaceEdit(session, [change]),
    },
  ];
}

// --- a value in another unit ---

function convert(
  session: Session,
  { document, offset }: About & { offset?: number },
  selected: Span,
): readonly CodeAction[] {
  const node = leafAt(document, offset ?? selected.start)?.astNode ?? leafAt(document, selected.end)?.astNode;
  if (
    !isQuantity(node) ||
    node.unit === undefined ||
    !touches({ start: node.$cstNode!.offset, end: node.$cstNode!.end }, selected)
  )
    return [];
  const from = parseUnit(node.unit);
  const kind = from && kindFor(node, from);
  if (from === undefined || kind === undefined) return [];
  const symbols = [...new Set([...likelyUnits(KINDS[kind], 'metric'), ...likelyUnits(KINDS[kind], 'us')])];
  return symbols.flatMap((symbol): CodeAction[] => {
    const to = parseUnit(symbol);
    if (to === undefined || to.symbol === from.symbol || to.dimension.key !== from.dimension.key) return [];
    const literal = convertLiteral(node.value, from, to, 6);
    if (literal === undefined) return [];
    const text = `${literal} ${to.symbol}`;
    const { offset: start, end } = node.$cstNode!;
    return [
      {
        title: session.t('Write it as {0}', text),
        kind: `${CodeActionKind.RefactorRewrite}.unit`,
        edit: workspaceEdit(session, [{ document, start, end, text }]),
      },
    ];
  });
}

function kindFor(node: Quantity, unit: NonNullable<ReturnType<typeof parseUnit>>): KindName | undefined {
  const around = AstUtils.getContainerOfType(node, isProperty);
  const block = around?.$container;
  const kind = isBlock(block) ? kinds.get(block.kind) : undefined;
  const type = kind && around && propertyOf(kind, around.name)?.property.type;
  if (type && 'kind' in type && KINDS[type.kind].dimension.key === unit.dimension.key) return type.kind;
  return kindOf(magnitudeOf(node.value, unit))?.name as KindName | undefined;
}

// --- required properties ---

function fillIn(session: Session, { document }: About, selected: Span): readonly CodeAction[] {
  const block = AstUtils.getContainerOfType(leafAt(document, selected.start)?.astNode, isBlock);
  const kind = block && kinds.get(block.kind);
  if (!block || !kind || !block.$cstNode) return [];
  const lineage = [...session.project.names.lineage(block)];
  const said = new Set(lineage.flatMap(each => each.entries.filter(isProperty).map(entry => entry.name)));
  const variant = kind.variant && block.entries.find(entry => isProperty(entry) && entry.name === kind.variant);
  const does = isProperty(variant || undefined)
    ? (variant as { value?: { $cstNode?: CstNode } }).value?.$cstNode?.text.trim()
    : undefined;
  const missing = [...propertyTable(kind)].filter(
    ([word, { property }]) =>
      !said.has(word) && (property.required || (does !== undefined && property.requiredFor?.includes(does) === true)),
  );
  if (missing.length === 0) return [];
  const indent = ' '.repeat(document.textDocument.positionAt(block.$cstNode.offset).character);
  const lines = missing.map(([word, { property }]) => `${indent}${INDENT}${word}: ${property.example}`);
  const change = block.open
    ? afterLastEntry(document, block, lines)
    : { document, start: block.$cstNode.end, end: block.$cstNode.end, text: ` {\n${lines.join('\n')}\n${indent}}` };
  const title =
    missing.length === 1
      ? session.t('Add {0}', missing[0]![0])
      : session.t('Add {0} required properties', missing.length);
  return [{ title, kind: `${CodeActionKind.RefactorRewrite}.required`, edit: workspaceEdit(session, [change]) }];
}

function afterLastEntry(document: BroomDocument, block: Block, lines: readonly string[]): Change {
  const cst = block.$cstNode!;
  const last = block.entries.findLast(isProperty)?.$cstNode;
  const open = GrammarUtils.findNodeForProperty(cst, 'open');
  if (last !== undefined) return { document, start: last.end, end: last.end, text: `\n${lines.join('\n')}` };
  const at = open?.end ?? cst.end;
  const inline = slice(document, at, cst.end).trim() === '}' && !slice(document, at, cst.end).includes('\n');
  return { document, start: at, end: at, text: `\n${lines.join('\n')}${inline ? '\n' : ''}` };
}

// --- a block into a file of its own ---

function extract(session: Session, { document }: About, selected: Span): readonly CodeAction[] {
  const block = document.parseResult.value.items.find(
    item =>
      isBlock(item) &&
      item.$cstNode !== undefined &&
      touches({ start: item.$cstNode.offset, end: item.$cstNode.offset + headingLength(item) }, selected),
  );
  if (!isBlock(block) || block.name === undefined) return [];
  const group = kinds.get(block.kind)?.group;
  if (group !== 'plant' && group !== 'method' && block.kind !== 'product') return [];
  const title = session.t('Move {0} {1} to a library file', block.kind, block.name);
  const kind = `${CodeActionKind.RefactorExtract}.library`;
  const trouble = createsFiles(session)
    ? whatStays(session, document, block)
    : session.t('this editor can’t be asked to create files');
  if (typeof trouble === 'string') {
    return session.client.textDocument?.codeAction?.disabledSupport
      ? [{ title, kind, disabled: { reason: session.t('Not possible: {0}.', trouble) } }]
      : [];
  }
  const name = `${block.name.replace(/([a-z0-9])([A-Z])/g, '$1-$2').toLowerCase()}.broom`;
  const folder = document.uri.path.split('/').slice(0, -1).join('/');
  const uri = document.uri.with({ path: `${folder}/${name}` });
  if (session.project.documentOf(uri.toString())) {
    return session.client.textDocument?.codeAction?.disabledSupport
      ? [{ title, kind, disabled: { reason: session.t('There is already a file {0} beside this one.', name) } }]
      : [];
  }
  const cst = block.$cstNode!;
  const text = document.textDocument.getText();
  const start = commentBefore(text, cst.offset);
  const end = text.startsWith('\n', cst.end) ? cst.end + (text.startsWith('\n\n', cst.end) ? 2 : 1) : cst.end;
  const uses = trouble.map(line => `${line}\n`).join('');
  const moved = `broomline 1\n\n${uses}${uses ? '\n' : ''}${text.slice(start, cst.end)}\n`;
  const at = afterUses(document);
  const edit = workspaceEdit(
    session,
    [
      { document, start: at, end: at, text: `${at === 0 ? '' : '\n'}use "${name}"${at === 0 ? '\n' : ''}` },
      { document, start, end, text: '' },
    ],
    [{ uri: URI.parse(uri.toString()).toString(), text: moved }],
  );
  return [{ title, kind, edit }];
}

function headingLength(block: Block): number {
  const cst = block.$cstNode!;
  const open = GrammarUtils.findNodeForProperty(cst, 'open');
  return (open?.offset ?? cst.end) - cst.offset;
}

/** The `use` lines that the block needs, or why it can't leave: it names something that stays behind. */
function whatStays(session: Session, document: BroomDocument, block: Block): readonly string[] | string {
  const { t, project } = session;
  const { names, imports } = project;
  const uses = new Set<string>();
  for (const node of AstUtils.streamAllContents(block)) {
    if (!isReference(node)) continue;
    const named = names.word(node, 0);
    if (named === undefined || isWithin(named, block)) continue;
    if (named.$type === 'Use') uses.add(named.$cstNode?.text ?? '');
    else if (isBlock(named) && AstUtils.findRootNode(named) === document.parseResult.value)
      return t('it names {0}, which stays in this file', named.name ?? named.kind);
    else {
      const home = AstUtils.findRootNode(named).$document?.uri.toString();
      const use = document.parseResult.value.items.find(
        item => item.$type === 'Use' && item.name === undefined && imports.targetOf(item)?.uri.toString() === home,
      );
      if (use?.$cstNode) uses.add(use.$cstNode.text);
    }
  }
  return [...uses].filter(Boolean);
}

function isWithin(node: { $container?: unknown }, block: Block): boolean {
  for (let at: unknown = node; at; at = (at as { $container?: unknown }).$container) if (at === block) return true;
  return false;
}

/** A comment right above a block belongs to it. */
function commentBefore(text: string, offset: number): number {
  let start = text.lastIndexOf('\n', offset - 1) + 1;
  for (;;) {
    const before = text.lastIndexOf('\n', start - 2) + 1;
    if (start === 0 || !/^\s*\/\//.test(text.slice(before, start))) return start;
    start = before;
  }
}

function afterUses(document: BroomDocument): number {
  const { items } = document.parseResult.value;
  const last = items.findLast(item => item.$type === 'Use') ?? items.find(item => item.$type === 'Header');
  return last?.$cstNode?.end ?? 0;
}

// --- a parameter back into the text ---

async function inline(
  session: Session,
  { document }: About,
  selected: Span,
  pace: Pace,
): Promise<readonly CodeAction[]> {
  const leaf = leafAt(document, selected.start);
  const parameter = isParameter(leaf?.astNode) ? leaf.astNode : undefined;
  if (parameter === undefined || parameter.name === undefined) return [];
  const title = session.t('Put the value of {0} where it is used, and drop the parameter', parameter.name);
  const kind = `${CodeActionKind.RefactorInline}.parameter`;
  const all = await everywhere(session, parameter, pace);
  const value = inlineValue(
    session,
    parameter,
    all.map(each => each.node),
  );
  if ('trouble' in value) {
    return session.client.textDocument?.codeAction?.disabledSupport
      ? [{ title, kind, disabled: { reason: value.trouble } }]
      : [];
  }
  const changes: Change[] = [];
  for (const each of all) {
    if (each.is === 'declaration') changes.push(withComma(each.document, parameter.$cstNode!, '(', ')'));
    else if (isArgument(each.node)) changes.push(withComma(each.document, each.node.$cstNode!, '(', ')'));
    else {
      // Inside a larger expression brackets keep the value together.
      const around = each.node.$container;
      const text =
        isPhrase(around) || isReference(around) || /^[\w.]+(\s+\S+)?$/.test(value.text)
          ? value.text
          : `(${value.text})`;
      changes.push({ document: each.document, start: each.start, end: each.end, text });
    }
  }
  return [{ title, kind, edit: workspaceEdit(session, changes) }];
}

/** The one value that the parameter has wherever the method is called. */
function inlineValue(
  session: Session,
  parameter: Parameter,
  nodes: readonly unknown[],
): { readonly text: string } | { readonly trouble: string } {
  const standing = parameter.default?.$cstNode?.text.trim();
  const given = new Set(nodes.filter(isArgument).map(each => each.value?.$cstNode?.text.trim() ?? ''));
  if (standing !== undefined) given.add(standing);
  if (given.size > 1)
    return {
      trouble: session.t(
        '{0} has different values where the method is called: {1}.',
        parameter.name,
        [...given].join(', '),
      ),
    };
  const [text] = given;
  if (!text) return { trouble: session.t('Nothing says what {0} is.', parameter.name) };
  const method = parameter.$container?.$container;
  const home = AstUtils.findRootNode(parameter).$document as BroomDocument | undefined;
  if (isBlock(method) && home && nodes.some(isArgument) && standing === undefined) {
    const calls = occurrences(session.project, method, documentsThatSee(session.project, home)).filter(
      each => each.is === 'reference',
    );
    if (calls.length > nodes.filter(isArgument).length)
      return { trouble: session.t('Not every call says what {0} is.', parameter.name) };
  }
  return { text };
}

/** An item of a list in brackets with the comma that parts it from its neighbour; the brackets too where it is alone. */
function withComma(document: BroomDocument, cst: CstNode, open: string, close: string): Change {
  const text = document.textDocument.getText();
  let [start, end] = [cst.offset, cst.end];
  const after = /^\s*,\s*/.exec(text.slice(end));
  const before = /,\s*$/.exec(text.slice(0, start));
  if (after) end += after[0].length;
  else if (before) start -= before[0].length;
  else {
    const opening = new RegExp(`\\${open}\\s*$`).exec(text.slice(0, start));
    const closing = new RegExp(`^\\s*\\${close}`).exec(text.slice(end));
    if (opening && closing) [start, end] = [start - opening[0].length, end + closing[0].length];
  }
  return { document, start, end, text: '' };
}
