/** Langium's linking services over `Names`: references are real, so rename, find-all and go-to work across files. */
import {
  type AstNode,
  type AstNodeDescription,
  AstUtils,
  Cancellation,
  type CstNode,
  type CstUtils,
  DefaultLinker,
  type DefaultReference,
  DefaultReferenceDescriptionProvider,
  DefaultReferences,
  EMPTY_SCOPE,
  type FindReferencesOptions,
  GrammarUtils,
  interruptAndCheck,
  isAstNode,
  type LangiumCoreServices,
  type LangiumDocument,
  type LinkingError,
  type LocalSymbols,
  MultiMap,
  type Reference,
  type ReferenceDescription,
  type ReferenceInfo,
  type Scope,
  type ScopeComputation,
  type ScopeProvider,
  type Stream,
  stream,
} from 'langium';
import {
  type Block,
  type Document,
  isArgument,
  isBlock,
  isProperty,
  isReference,
  type Named,
  type Property,
} from '../generated/ast.ts';
import type { Names } from './scope.ts';

/** How many references are linked between two looks at whether the work was cancelled. */
const REFERENCES_PER_BREATH = 500;

/** What a cross-reference of the syntax tree means. */
function targetOf(names: Names, info: ReferenceInfo): Named | undefined {
  const { container, reference, property } = info;
  if (isArgument(container)) return names.parameterOf(container);
  if (!isReference(container)) return undefined;
  if (property === 'head') return names.word(container, 0);
  const index = info.index ?? container.tail.indexOf(reference as Reference<Named>);
  return index < 0 ? undefined : names.word(container, index + 1);
}

/** Descriptions of named nodes, made once for each text they stand in: a change moves nodes from one tree to the next. */
export class Descriptions {
  private readonly services: LangiumCoreServices;
  private readonly made = new WeakMap<
    AstNode,
    { readonly root: WeakRef<AstNode>; readonly description: AstNodeDescription }
  >();

  constructor(services: LangiumCoreServices) {
    this.services = services;
  }

  of(node: Named): AstNodeDescription {
    const root = AstUtils.findRootNode(node);
    const known = this.made.get(node);
    if (known?.root.deref() === root) return known.description;
    const description = this.services.workspace.AstNodeDescriptionProvider.createDescription(node, node.name);
    this.made.set(node, { root: new WeakRef(root), description });
    return description;
  }
}

export class BroomScopeProvider implements ScopeProvider {
  private readonly names: Names;
  private readonly descriptions: Descriptions;

  constructor(names: Names, descriptions: Descriptions) {
    this.names = names;
    this.descriptions = descriptions;
  }

  getScope(info: ReferenceInfo): Scope {
    const { names, descriptions } = this;
    const { container, property } = info;
    const describe = (node: Named | undefined) => (node === undefined ? undefined : descriptions.of(node));
    const all = (): Stream<AstNodeDescription> => {
      if (isReference(container) && property === 'head') {
        return stream(names.visibleNames(container)).map(name => descriptions.of(name.node));
      }
      if (isReference(container)) {
        const index = info.index ?? container.tail.indexOf(info.reference as Reference<Named>);
        const before = names.word(container, Math.max(0, index));
        return before === undefined
          ? EMPTY_SCOPE.getAllElements()
          : stream(names.memberNames(before)).map(name => descriptions.of(name.node));
      }
      const called =
        isArgument(container) && isReference(container.$container) ? names.resolve(container.$container) : undefined;
      return isBlock(called)
        ? stream(names.parametersOf(called)).map(node => descriptions.of(node))
        : EMPTY_SCOPE.getAllElements();
    };
    return {
      getElement: name =>
        name === info.reference.$refText ? describe(targetOf(names, info)) : all().find(one => one.name === name),
      getElements: name => all().filter(one => one.name === name),
      getAllElements: all,
    };
  }
}

/** What other files can name: the blocks at the top. Local names come from `Names`, so nothing else is collected. */
export class BroomScopeComputation implements ScopeComputation {
  private readonly descriptions: Descriptions;

  constructor(descriptions: Descriptions) {
    this.descriptions = descriptions;
  }

  async collectExportedSymbols(document: LangiumDocument): Promise<AstNodeDescription[]> {
    const items = (document.parseResult.value as Partial<Document>).items ?? [];
    return items.filter(isBlock).flatMap(block => (block.name === undefined ? [] : [this.descriptions.of(block)]));
  }

  async collectLocalSymbols(): Promise<LocalSymbols> {
    return new MultiMap<AstNode, AstNodeDescription>();
  }
}

export class BroomLinker extends DefaultLinker {
  private readonly names: Names;
  private readonly descriptions: Descriptions;

  constructor(services: LangiumCoreServices, names: Names, descriptions: Descriptions) {
    super(services);
    this.names = names;
    this.descriptions = descriptions;
  }

  override async link(document: LangiumDocument, cancelToken = Cancellation.CancellationToken.None): Promise<void> {
    const infos = referencesIn(document.parseResult.value);
    for (let i = 0; i < infos.length; i++) {
      if (i % REFERENCES_PER_BREATH === 0) await interruptAndCheck(cancelToken);
      this.linkOne(document, infos[i]!);
    }
  }

  /** The same at once, for a document whose statements are partly those of the text before: each is walked once only. */
  linkNow(document: LangiumDocument<Document>): void {
    this.unlink(document);
    for (const item of document.parseResult.value.items) {
      for (const info of referencesOf(item)) this.linkOne(document, info);
    }
  }

  private linkOne(document: LangiumDocument, info: ReferenceInfo): void {
    const reference = info.reference as DefaultReference;
    if (reference._ref !== undefined) return;
    const description = this.getCandidate(info);
    if ('message' in description) reference._ref = description;
    else {
      reference._nodeDescription = description;
      reference._ref = description.node!;
    }
    document.references.push(reference);
  }

  /** A word that names nothing is not wrong in itself: it may be a plain word or a computed quantity. The checks decide. */
  override getCandidate(info: ReferenceInfo): AstNodeDescription | LinkingError {
    const target = targetOf(this.names, info);
    return target === undefined ? { info, message: '' } : this.descriptions.of(target);
  }
}

/** For the index of references: the same walk as linking, without a promise and three streams for each node. */
export class BroomReferenceDescriptions extends DefaultReferenceDescriptionProvider {
  override async createDescriptions(
    document: LangiumDocument,
    cancelToken = Cancellation.CancellationToken.None,
  ): Promise<ReferenceDescription[]> {
    await interruptAndCheck(cancelToken);
    return referencesIn(document.parseResult.value).flatMap(info =>
      info.reference.error === undefined ? this.createInfoDescriptions(info) : [],
    );
  }
}

const known = new WeakMap<AstNode, readonly ReferenceInfo[]>();

/** The same for a node that is asked about again and again: syntax nodes do not change. */
export function referencesOf(node: AstNode): readonly ReferenceInfo[] {
  let infos = known.get(node);
  if (infos === undefined) {
    infos = referencesIn(node);
    known.set(node, infos);
  }
  return infos;
}

/** Every cross-reference below a node, in the order of the text. */
function referencesIn(root: AstNode): ReferenceInfo[] {
  const infos: ReferenceInfo[] = [];
  const stack: AstNode[] = [root];
  for (let node = stack.pop(); node !== undefined; node = stack.pop()) {
    if (isReference(node)) {
      if (node.head !== undefined) infos.push({ container: node, property: 'head', reference: node.head });
      for (let index = 0; index < node.tail.length; index++) {
        infos.push({ container: node, property: 'tail', index, reference: node.tail[index]! });
      }
    } else if (isArgument(node) && node.parameter !== undefined) {
      infos.push({ container: node, property: 'parameter', reference: node.parameter });
    }
    const below: AstNode[] = [];
    for (const [name, value] of Object.entries(node)) {
      if (name.startsWith('$')) continue;
      for (const one of Array.isArray(value) ? value : [value]) if (isAstNode(one)) below.push(one);
    }
    while (below.length > 0) stack.push(below.pop()!);
  }
  return infos;
}

/** Finding and renaming a role also finds the properties that bind it: `applicator: Sprayer1` in a `work` block. */
export class BroomReferences extends DefaultReferences {
  private readonly names: Names;

  constructor(services: LangiumCoreServices, names: Names) {
    super(services);
    this.names = names;
  }

  override findDeclarations(source: CstNode): AstNode[] {
    const property = propertyNamedAt(source);
    const role = property === undefined ? undefined : this.names.roleOfBinding(property);
    return role === undefined ? super.findDeclarations(source) : [role];
  }

  override findReferences(target: AstNode, options: FindReferencesOptions): Stream<ReferenceDescription> {
    const found = super.findReferences(target, options);
    return isBlock(target) ? found.concat(this.bindingsOf(target, options)) : found;
  }

  private bindingsOf(role: Block, options: FindReferencesOptions): ReferenceDescription[] {
    const method = role.$container;
    if (!isBlock(method)) return [];
    const bindings: ReferenceDescription[] = [];
    const targetUri = AstUtils.getDocument(role).uri;
    for (const document of this.documents.all) {
      if (options.documentUri !== undefined && options.documentUri.toString() !== document.uri.toString()) continue;
      for (const block of (document.parseResult.value as Partial<Document>).items ?? []) {
        if (!isBlock(block)) continue;
        for (const property of block.entries) {
          if (!isProperty(property) || property.name !== role.name || this.names.roleOfBinding(property) !== role)
            continue;
          const name = GrammarUtils.findNodeForProperty(property.$cstNode, 'name');
          if (name === undefined) continue;
          bindings.push({
            sourceUri: document.uri,
            sourcePath: this.nodeLocator.getAstNodePath(property),
            targetUri,
            targetPath: this.nodeLocator.getAstNodePath(role),
            segment: segmentOf(name),
            local: document.uri.toString() === targetUri.toString(),
          });
        }
      }
    }
    return bindings;
  }
}

function segmentOf(node: CstNode): NonNullable<ReturnType<typeof CstUtils.toDocumentSegment>> {
  return { offset: node.offset, length: node.length, end: node.end, range: node.range };
}

/** The property whose name this piece of text is. */
function propertyNamedAt(source: CstNode): Property | undefined {
  const node = source.astNode;
  if (!isProperty(node)) return undefined;
  const name = GrammarUtils.findNodeForProperty(node.$cstNode, 'name');
  return name !== undefined && name.offset <= source.offset && source.end <= name.end ? node : undefined;
}
