/**
 * What stands in a file and nothing refers to: files that are brought in, blocks that count only by their name, parameters of
 * methods. Told by what the references mean, so a word that only looks the same is no use.
 */
import { AstUtils, type LangiumDocument, type Reference as Link, type ReferenceInfo } from 'langium';
import { placeOf, placeOfPart } from '../evaluate/places.ts';
import type { Argument, Block, Document, Parameter, Reference, Use } from '../generated/ast.ts';
import { isArgument, isBlock, isParameter, type Named } from '../generated/ast.ts';
import { referencesOf } from '../grammar/linking.ts';
import type { Place } from '../vocabulary/given.ts';

/** Of the file itself; what a library has is there for others. */
export interface Unused {
  /** `use` statements that bring in nothing the file needs. */
  readonly uses: readonly { readonly place: Place; readonly path: string }[];
  /** Names of blocks at the top that nothing but themselves names. */
  readonly blocks: ReadonlySet<string>;
  readonly parameters: readonly UnusedParameter[];
}

export interface UnusedParameter {
  readonly name: string;
  /** The method's name. */
  readonly method: string;
  readonly place: Place;
  /** What goes with it: its comma, or the brackets where it is alone; and the arguments that the file gives for it. */
  readonly cuts: readonly Place[];
}

/** A file that is brought in. */
export interface Brought {
  readonly use: Use;
  readonly target: LangiumDocument<Document> | undefined;
}

/**
 * @param brought files that are brought in and can be read
 * @param standing kinds that hold by standing in a file that is brought in without a prefix
 */
export function unusedIn(document: Document, brought: readonly Brought[], standing: ReadonlySet<string>): Unused {
  const all = document.items.flatMap(item => referencesOf(item).map(info => ({ info, item })));
  const named = new Set<unknown>();
  for (const { info, item } of all) {
    // A waiver says nothing of the job, and what a block says of itself is no use of it.
    const target = meantBy(info);
    if (target !== undefined && target !== item && item.$type !== 'Waive') named.add(target);
  }
  const own = document.items.filter(isBlock);
  // Cells say a name and no more; of two blocks of one name nobody knows which is meant.
  const names = new Set([...cellsOf(document), ...own.flatMap(block => (named.has(block) ? (block.name ?? []) : []))]);
  return {
    uses: unusedUses(all, brought, standing),
    blocks: new Set(
      own.flatMap(block => {
        const { name } = block;
        return name === undefined || names.has(name) ? [] : [name];
      }),
    ),
    parameters: unusedParameters(own, all),
  };
}

type Found = { readonly info: ReferenceInfo };

function meantBy({ reference }: ReferenceInfo): Named | undefined {
  return (reference as Link<Named>).ref;
}

function unusedUses(all: readonly Found[], brought: readonly Brought[], standing: ReadonlySet<string>): Unused['uses'] {
  const files = new Set<unknown>();
  const prefixes = new Set<unknown>();
  for (const { info } of all) {
    const target = meantBy(info);
    if (target?.$type === 'Use') prefixes.add(target);
    else if (target) files.add(AstUtils.findRootNode(target));
  }
  return brought.flatMap(({ use, target }) => {
    const root = target?.parseResult.value;
    if (!root || (use.name === undefined ? files.has(root) : prefixes.has(use))) return [];
    const holds = use.name === undefined && root.items.some(item => isBlock(item) && standing.has(item.kind));
    return holds ? [] : [{ place: placeOf(use), path: use.path }];
  });
}

/** Cells of tables may name blocks: the machines of a fleet, the works of a log. */
function cellsOf(document: Document): ReadonlySet<string> {
  const found = new Set<string>();
  const inBlock = (block: Block): void => {
    for (const entry of block.entries) {
      if (entry.$type === 'Block') inBlock(entry);
      else if (entry.$type === 'Property' && entry.value?.$type === 'Table') {
        for (const { cells } of entry.value.rows) for (const { text, word } of cells) found.add(text ?? word ?? '');
      }
    }
  };
  for (const item of document.items) if (isBlock(item)) inBlock(item);
  return found;
}

function unusedParameters(own: readonly Block[], all: readonly Found[]): readonly UnusedParameter[] {
  const used = new Set<Parameter>();
  /** Parameters that are handed on to others: they count as those do. */
  const handed = new Map<Parameter, Set<Parameter>>();
  const given = new Map<Parameter, Argument[]>();
  for (const { info } of all) {
    const target = meantBy(info);
    if (!target || !isParameter(target)) continue;
    const { container } = info;
    if (isArgument(container)) given.set(target, [...(given.get(target) ?? []), container]);
    else {
      const to = parameterAround(container);
      if (to) handed.set(target, (handed.get(target) ?? new Set()).add(to));
      else used.add(target);
    }
  }
  const isOwn = (parameter: Parameter) => own.includes(parameter.$container.$container as Block);
  const counts = (parameter: Parameter, seen: ReadonlySet<Parameter>): boolean => {
    if (used.has(parameter)) return true;
    if (seen.has(parameter)) return false;
    const to = [...(handed.get(parameter) ?? [])];
    // What a method of another file does with it is that file's affair.
    return to.some(each => !isOwn(each) || counts(each, new Set([...seen, parameter])));
  };
  return own.flatMap(block => {
    const list = block.parameters;
    if (block.kind !== 'method' || !list) return [];
    return list.parameters.flatMap((parameter): UnusedParameter[] => {
      if (counts(parameter, new Set())) return [];
      const cuts = [
        cutOf(parameter, list.parameters, placeOf(list)),
        ...(given.get(parameter) ?? []).map(cutOfArgument),
      ];
      return [{ name: parameter.name, method: block.name ?? '', place: placeOfPart(parameter, 'name'), cuts }];
    });
  });
}

/** The parameter that a reference gives the value of, where it stands in an argument. */
function parameterAround(reference: ReferenceInfo['container']): Parameter | undefined {
  const argument = AstUtils.getContainerOfType(reference, isArgument);
  const target = argument?.parameter?.ref;
  return target && isParameter(target) ? target : undefined;
}

/** What is taken out with one of a list: the comma before or after it, or all that is around the list where it is alone. */
function cutOf<T extends Parameter | Argument>(one: T, all: readonly T[], around: Place): Place {
  if (all.length === 1) return around;
  const place = placeOf(one);
  const i = all.indexOf(one);
  return i === 0 ? { ...place, end: placeOf(all[1]!).start } : { ...place, start: placeOf(all[i - 1]!).end };
}

function cutOfArgument(argument: Argument): Place {
  const call = argument.$container as Reference;
  const brackets = { ...placeOf(call), start: placeOfPart(call, 'call').start };
  return cutOf(argument, call.arguments, brackets);
}
