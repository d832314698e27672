/** Above deposits and works what they come to; above each block that others name, how often. */
import { type CodeLens, CodeLensRefreshRequest, CodeLensRequest, CodeLensResolveRequest } from 'vscode-languageserver';
import { z } from 'zod';
import type { Analysis } from '../../language/analysis/analyse.ts';
import type { Explained } from '../../language/explain/explain.ts';
import { type Block, isBlock } from '../../language/generated/ast.ts';
import { type Said, said, tell } from '../../language/pictures/words.ts';
import { KINDS, show } from '../../language/units/index.ts';
import { pathOf } from '../project/describe.ts';
import { offsetIn, rangeIn } from '../project/positions.ts';
import type { BroomDocument } from '../project/project.ts';
import { declarationOf, symbolAt } from '../project/symbols.ts';
import type { Feature, Session } from '../session.ts';
import { everywhere, locationFor } from './references.ts';

export const codeLens: Feature = {
  capabilities: () => ({ codeLensProvider: { resolveProvider: true } }),
  register: session => {
    session.onDocument(CodeLensRequest.type, ({ document, analysis, address }): CodeLens[] =>
      lensesOf(session, document, analysis, address),
    );
    const unresolved = z.looseObject({
      range: z.looseObject({}),
      data: z.object({ uri: z.string(), position: z.object({ line: z.int(), character: z.int() }) }).optional(),
    });
    session.on(CodeLensResolveRequest.type, unresolved, async (lens, pace): Promise<CodeLens> => {
      const data = lens.data as { uri: string; position: { line: number; character: number } } | undefined;
      if (data === undefined) return lens;
      const { document } = await session.about(data.uri, pace.token, { textOnly: true });
      const found = symbolAt(session.project, document, offsetIn(document, data.position));
      const uses = found
        ? (await everywhere(session, found.symbol, pace)).filter(each => each.is !== 'declaration')
        : [];
      const title =
        uses.length === 0
          ? session.t('not used')
          : uses.length === 1
            ? session.t('used once')
            : session.t('used {0} times', uses.length);
      const places = uses.map(each => locationFor(session, each));
      return {
        range: lens.range,
        command: {
          title,
          command: uses.length === 0 ? '' : 'broomline.showReferences',
          arguments: [data.uri, data.position, places],
        },
      };
    });
    session.onSettings.push(() => {
      if (session.client.workspace?.codeLens?.refreshSupport)
        void session.connection.sendRequest(CodeLensRefreshRequest.type).catch(() => undefined);
    });
  },
};

/** Which quantities say most of a block, in the order in which a reader wants them. */
const SHOWN: Readonly<Record<string, readonly (readonly [name: string, words?: Said, ofOne?: Said])[]>> = {
  deposit: [['area'], ['length', said('{0} long')]],
  work: [
    ['area'],
    ['bays', said('{0} bays'), said('{0} bay')],
    ['product', said('{0} product')],
    ['water', said('{0} water')],
    ['time', said('{0} on the runway')],
    ['*.least', said('{0} least dwell')],
    ['residence', said('{0} residence')],
  ],
  job: [
    ['closures', said('{0} closures'), said('{0} closure')],
    ['area'],
    ['product', said('{0} product')],
    ['water', said('{0} water')],
    ['runoff', said('{0} to collect')],
  ],
};

function lensesOf(session: Session, document: BroomDocument, analysis: Analysis | undefined, uri: string): CodeLens[] {
  const { lenses } = session.settings;
  const system = session.system(analysis);
  return document.parseResult.value.items.filter(isBlock).flatMap((block): CodeLens[] => {
    const cst = block.$cstNode;
    const name = declarationOf(block);
    if (cst === undefined || name === undefined) return [];
    const range = rangeIn(document, cst.offset, name.end);
    const sayings = lenses.quantities ? sayingsOf(session, block, analysis, system) : [];
    const summary =
      sayings.length > 0
        ? [
            {
              range,
              command: {
                title: sayings.join(' · '),
                command: 'broomline.showQuantities',
                arguments: [uri, pathOf(block)],
              },
            },
          ]
        : [];
    const counted = lenses.references && block.name !== undefined && REFERRED.has(block.kind);
    const position = document.textDocument.positionAt(name.start);
    return [...summary, ...(counted ? [{ range, data: { uri, position } }] : [])];
  });
}

const REFERRED: ReadonlySet<string> = new Set([
  'runway',
  'deposit',
  'product',
  'sprayer',
  'broom',
  'water-truck',
  'sweeper',
  'magnet',
  'jet',
  'method',
  'closure',
  'crew',
]);

function sayingsOf(
  { t }: Session,
  block: Block,
  analysis: Analysis | undefined,
  system: 'metric' | 'us',
): readonly string[] {
  const stem = block.kind === 'job' ? 'Job' : pathOf(block);
  const sayings = (SHOWN[block.kind] ?? []).flatMap(([name, words, ofOne]) => {
    const explained = quantityAt(analysis, stem, name);
    if (explained === undefined) return [];
    const shown = show(explained.value, KINDS[explained.kind], system);
    const chosen = explained.kind === 'count' && explained.value === 1 ? (ofOne ?? words) : words;
    return [chosen ? tell(t, [chosen[0], shown]) : shown];
  });
  return sayings.length > 0 && block.kind === 'job' && analysis?.further
    ? [...sayings, t('still looking for a better schedule')]
    : sayings;
}

/** A quantity of a block; `*` stands for any of its steps. */
function quantityAt(analysis: Analysis | undefined, stem: string, name: string): Explained | undefined {
  if (!name.startsWith('*.')) return analysis?.quantities.get(`${stem}.${name}`);
  const [start, end] = [`${stem}.`, name.slice(1)];
  for (const each of analysis?.quantities.values() ?? []) {
    if (each.path.startsWith(start) && each.path.endsWith(end)) return each;
  }
  return undefined;
}
