import { AstUtils, CstUtils, type LangiumDocument, URI } from 'langium';
import { describe, expect, test } from 'vitest';
import {
  type Block,
  type Document,
  isArgument,
  isBlock,
  isProperty,
  isReference,
  type Property,
  type Reference,
} from '../../../language/generated/ast.ts';
import type { NameRules } from '../../../language/grammar/scope.ts';
import { createSyntax } from '../../../language/grammar/services.ts';
import { parse, syntax, TOP_KINDS, workspace } from './helpers.ts';

/** What each word of the reference written like this means: `kind name`, or `-` where it means nothing. */
function meanings(document: Document, written: string, names = syntax.names): string[] {
  const reference = AstUtils.streamAllContents(document)
    .filter(isReference)
    .find(one => one.$cstNode?.text === written);
  if (reference === undefined) throw new Error(`no reference ${written}`);
  return [reference.head, ...reference.tail].map((word, i) => {
    const target = word.ref;
    expect(names.word(reference, i)).toBe(target);
    return target === undefined ? '-' : `${isBlock(target) ? target.kind : target.$type} ${target.name}`;
  });
}

function block(document: Document, name: string): Block {
  return AstUtils.streamAllContents(document)
    .filter(isBlock)
    .find(one => one.name === name)!;
}

describe('first word', () => {
  const text = `
runway Main { end "04" }
work scrubbers { x: 1 }
method M(soak: time = 35 min, rate: rate) {
    role scrubbers { kind: broom }
    step Soak { at-least: soak, by: scrubbers, after: Apply, on: Main }
    step Apply { rate: rate * 2, x: Missing }
}
work W { uses: scrubbers, soak: soak }
`;
  const { document } = parse(text);
  test('parameters and nested blocks of the blocks around come first', () => {
    expect(meanings(document, 'soak')).toEqual(['Parameter soak']);
    expect(meanings(document, 'rate')).toEqual(['Parameter rate']);
    expect(meanings(document, 'scrubbers')).toEqual(['role scrubbers']);
    expect(meanings(document, 'Apply')).toEqual(['step Apply']);
    expect(meanings(document, 'Main')).toEqual(['runway Main']);
    expect(meanings(document, 'Missing')).toEqual(['-']);
  });
  test('outside, the names of the top are meant', () => {
    const property = block(document, 'W').entries[0] as Property;
    const reference = AstUtils.streamAllContents(property).find(isReference)!;
    expect((syntax.names.resolve(reference) as Block).kind).toBe('work');
  });
  test('nothing inside another block is seen', () =>
    expect(meanings(parse('method M { step S { x: 1 } }\nwork W { a: S }').document, 'S')).toEqual(['-']));
  test('the first of several wins, and the others are known', () => {
    const { document: twice, langiumDocument } = parse(
      'broom B { a: 1 }\nbroom B { a: 2 }\nmethod M(p: time, p: time) { step S { x: 1 }\n step S { y: 2 } }\nwork W { uses: B }',
    );
    expect(AstUtils.streamAllContents(twice).find(isReference)!.head.ref).toBe(twice.items[0]);
    expect(syntax.names.duplicates(langiumDocument).map(one => [one.name, one.blocks.length])).toEqual([
      ['B', 2],
      ['S', 2],
      ['p', 2],
    ]);
  });
});

describe('like and without', () => {
  const text = `
method A { role sweepers { kind: sweeper }
  step Wash { x: 1 }
  step Dry { by: sweepers } }
method B like A { without Dry
  step Wash { by: sweepers } }
method C like C2 { step S { x: Wash } }
method C2 like C { step Wash { y: S } }
method Loop like Loop { x: Loop.Loop.y }
work W { a: B.Wash, b: B.Dry, c: B.sweepers, d: A.Dry.product, e: C.Wash.S }
`;
  const { document } = parse(text);
  test('inherited blocks are found, overridden ones by their new text, dropped ones not at all', () => {
    expect(meanings(document, 'B.Wash')).toEqual(['method B', 'step Wash']);
    expect(
      AstUtils.streamAllContents(document)
        .filter(isReference)
        .find(one => one.$cstNode?.text === 'B.Wash')!.tail[0]!.ref,
    ).toBe(block(document, 'B').entries.find(isBlock));
    expect(meanings(document, 'B.Dry')).toEqual(['method B', '-']);
    expect(meanings(document, 'B.sweepers')).toEqual(['method B', 'role sweepers']);
    expect(meanings(document, 'A.Dry.product')).toEqual(['method A', 'step Dry', '-']);
    const own = AstUtils.streamAllContents(block(document, 'B'))
      .filter(isReference)
      .find(one => one.$cstNode?.text === 'sweepers')!;
    expect((own.head.ref as Block).kind).toBe('role');
  });
  test('a circle of likes ends', () => {
    expect(meanings(document, 'Wash')).toEqual(['step Wash']);
    expect(meanings(document, 'Loop.Loop.y')).toEqual(['method Loop', '-', '-']);
    expect([...syntax.names.lineage(block(document, 'C'))].map(one => one.name)).toEqual(['C', 'C2']);
  });
  test('a like through a nested name of itself ends', () => {
    const circle = parse('method A like B.X { x: 1 }\nmethod B like A { y: X.Z }').document;
    expect(meanings(circle, 'B.X')).toEqual(['method B', '-']);
    expect(meanings(circle, 'X.Z')).toEqual(['-', '-']);
  });
});

describe('arguments and bindings', () => {
  const text = `
method A(soak: time = 3 min) { role applicator { kind: sprayer } }
method B like A { step S { x: 1 } }
work W { method: B(soak: 40 min, other: 2), applicator: X, bays: 3 }
work V like W { applicator: Y }
`;
  const { document } = parse(text);
  test('an argument names a parameter of the method that is called', () => {
    const [soak, other] = AstUtils.streamAllContents(document).filter(isArgument).toArray();
    expect(soak!.parameter!.ref).toBe(block(document, 'A').parameters!.parameters[0]);
    expect(other!.parameter!.ref).toBeUndefined();
  });
  test('a property with the name of a role binds it, in heirs too', () => {
    const role = block(document, 'applicator');
    const bound = AstUtils.streamAllContents(document)
      .filter(isProperty)
      .filter(one => syntax.names.roleOfBinding(one) !== undefined)
      .toArray();
    expect(bound.map(one => [one.$container.$type, one.name, syntax.names.roleOfBinding(one) === role])).toEqual([
      ['Block', 'applicator', true],
      ['Block', 'applicator', true],
    ]);
  });
});

describe('what the vocabulary says', () => {
  const rules: NameRules = {
    isPlainWord: (kind, property, word) => kind === 'deposit' && property === 'build-up' && word === 'heavy',
    kindsFor: (kind, property) => (kind === 'work' && property === 'uses' ? ['broom'] : undefined),
  };
  const own = createSyntax({ topLevelKinds: TOP_KINDS, rules });
  const { document } = own.parseText(`
deposit heavy { build-up: heavy, other: heavy }
method M { role X { kind: broom } }
work W like M { uses: X, also: X }
broom X { a: 1 }
`);
  const references = () => AstUtils.streamAllContents(document).filter(isReference);
  test('an enumerated word is never a reference', () => {
    const [plain, real] = references()
      .filter(one => one.$cstNode?.text === 'heavy')
      .toArray() as [Reference, Reference];
    expect([plain.head.ref, (real.head.ref as Block).kind]).toEqual([undefined, 'deposit']);
  });
  test('blocks of the kinds that a property names win', () => {
    const found = references()
      .filter(one => one.$cstNode?.text === 'X')
      .map(one => (one.head.ref as Block).kind)
      .toArray();
    expect(found).toEqual(['broom', 'role']);
  });
});

describe('over files', () => {
  const files = {
    '/job/north.broom':
      'use "lib/plant.broom" as District\nuse "lib/method.broom"\nwork North { method: Wash(soak: 3 min), applicator: District.Sprayer1, far: Deep, alias: District, bad: District.Deep }\n',
    '/job/lib/plant.broom': 'use "deep.broom"\nsprayer Sprayer1 { width: 3 m }\n',
    '/job/lib/method.broom': 'method Wash(soak: time) { role applicator { kind: sprayer } }\n',
    '/job/lib/deep.broom': 'sprayer Deep { width: 3 m }\n',
  };
  const open = async () => {
    const space = workspace({ ...files });
    const [north] = await space.open([URI.file('/job/north.broom')]);
    return { space, north: north!, root: north!.parseResult.value };
  };

  test('names of used files, with and without a prefix, and nothing beyond them', async () => {
    const { space, root } = await open();
    expect(
      space
        .documents()
        .map(one => one.uri.path)
        .sort(),
    ).toEqual(Object.keys(files).sort());
    expect(meanings(root, 'District.Sprayer1', space.names)).toEqual(['Use District', 'sprayer Sprayer1']);
    expect(meanings(root, 'Wash(soak: 3 min)', space.names)).toEqual(['method Wash']);
    expect(meanings(root, 'Deep', space.names)).toEqual(['-']);
    expect(meanings(root, 'District.Deep', space.names)).toEqual(['Use District', '-']);
    const visible = [...space.names.visibleNames(root.items[2]!)].map(one => `${one.kind} ${one.name}`);
    expect(visible).toEqual(['work North', 'use District', 'method Wash']);
  });

  test('rename finds a role where it is bound, and a block in other files', async () => {
    const { space, north } = await open();
    const method = space.documents().find(one => one.uri.path.endsWith('method.broom'))!.parseResult.value;
    const role = AstUtils.streamAllContents(method)
      .filter(isBlock)
      .find(one => one.kind === 'role')!;
    const texts = (target: Block, at: LangiumDocument) =>
      space.services.references.References.findReferences(target, { includeDeclaration: false })
        .filter(one => one.sourceUri.toString() === at.uri.toString())
        .map(one => at.textDocument.getText(one.segment.range))
        .toArray();
    expect(texts(role, north)).toEqual(['applicator']);
    expect(texts(method.items[0] as Block, north)).toEqual(['Wash']);
    const property = AstUtils.streamAllContents(north.parseResult.value)
      .filter(isProperty)
      .find(one => one.name === 'applicator')!;
    const leaf = CstUtils.findLeafNodeAtOffset(north.parseResult.value.$cstNode!, property.$cstNode!.offset + 2)!;
    expect(leaf.text).toBe('applicator');
    expect(space.services.references.References.findDeclarations(leaf)[0] === role).toBe(true);
  });

  test('a change relinks those that bring the file in, directly or through others, and no one else', async () => {
    const space = workspace({ ...files, '/job/apart.broom': 'work Apart { uses: Nobody }\n' });
    const documents = await space.open([URI.file('/job/north.broom'), URI.file('/job/apart.broom')]);
    const relinked: string[] = [];
    space.shared.workspace.DocumentBuilder.onDocumentPhase(4, document => {
      relinked.push(document.uri.path);
    });
    space.disk.files['/job/lib/method.broom'] = 'method Rinse(soak: time) { step S { x: 1 } }\n';
    await space.refresh([URI.file('/job/lib/method.broom')]);
    expect(relinked.sort()).toEqual(['/job/lib/method.broom', '/job/north.broom']);
    expect(meanings(documents[0]!.parseResult.value, 'Wash(soak: 3 min)', space.names)).toEqual(['-']);
    relinked.length = 0;
    await space.refresh([URI.file('/job/lib/deep.broom')]);
    expect(relinked.sort()).toEqual(['/job/lib/deep.broom', '/job/lib/plant.broom', '/job/north.broom']);
  });

  test('a file that appears is linked by those that waited for it', async () => {
    const space = workspace({ '/job/a.broom': 'use "b.broom"\nwork A { uses: B }\n' });
    const [a] = await space.open([URI.file('/job/a.broom')]);
    expect(meanings(a!.parseResult.value, 'B', space.names)).toEqual(['-']);
    space.disk.files['/job/b.broom'] = 'broom B { x: 1 }\n';
    await space.refresh([URI.file('/job/b.broom')]);
    expect(meanings(a!.parseResult.value, 'B', space.names)).toEqual(['broom B']);
    expect(space.importsOf(a!).map(one => one.state)).toEqual(['ok']);
  });
});
