/** What the preview, the exports and the extension ask for; the messages are in protocol.ts. */
import { AstUtils } from 'langium';
import { ProtocolRequestType } from 'vscode-languageserver';
import type { z } from 'zod';
import { derivedAsDocument } from '../../language/documents/derived.ts';
import { explainData, explainText } from '../../language/explain/render.ts';
import { isBlock } from '../../language/generated/ast.ts';
import { pathOf } from '../project/describe.ts';
import { rangeOfNode } from '../project/positions.ts';
import { BlocksRequest, CheckPageRequest, DeriveRequest, ExplainRequest } from '../protocol.ts';
import { type About, type Feature, type Pace, refused, type Session } from '../session.ts';
import { pageOf } from './checkPages.ts';

export const requests: Feature = {
  capabilities: () => ({
    experimental: {
      broomline: {
        requests: [DeriveRequest, ExplainRequest, CheckPageRequest, BlocksRequest].map(each => each.method),
      },
    },
  }),
  register: session => {
    answer(session, DeriveRequest, async ({ uri }, pace) => {
      const about = await session.about(uri, pace.token);
      return { ...stateOf(session, about), derived: derivedAsDocument(analysed(session, about)) };
    });
    answer(session, ExplainRequest, async ({ uri, path, units }, pace) => {
      const about = await session.about(uri, pace.token);
      const { job, quantities } = analysed(session, about);
      const explained = quantities.get(path);
      if (explained === undefined) throw refused(session.t('{0} is not computed in this file.', path));
      const currency = job.blocks.jobs[0]?.currency?.value;
      const options = {
        where: (place: { file: string; start: number }) => whereOf(session, place),
        ...(currency !== undefined && { currency }),
      };
      const system = units ?? session.system(about.analysis);
      return {
        ...stateOf(session, about),
        explained: explainData(explained, system, options),
        text: explainText(explained, system, options),
      };
    });
    answer(session, CheckPageRequest, async ({ code }) => {
      const markdown = pageOf(code);
      if (markdown === undefined) throw refused(session.t('There is no check {0}.', code));
      return { markdown };
    });
    answer(session, BlocksRequest, async ({ uri }, pace) => {
      const about = await session.about(uri, pace.token, { textOnly: true });
      const blocks = AstUtils.streamAllContents(about.document.parseResult.value)
        .filter(isBlock)
        .filter(block => block.$cstNode !== undefined)
        .map(block => ({
          path: pathOf(block),
          kind: block.kind,
          file: about.address,
          range: rangeOfNode(about.document, block.$cstNode!),
        }))
        .toArray();
      return { ...stateOf(session, about), blocks };
    });
  },
};

interface Message<P extends z.ZodType, R extends z.ZodType> {
  readonly method: string;
  readonly params: P;
  readonly result: R;
}

/** Both what is asked and what is answered keep to the schema: an answer that does not is a defect, and said so. */
function answer<P extends z.ZodType, R extends z.ZodType>(
  session: Session,
  message: Message<P, R>,
  give: (params: z.infer<P>, pace: Pace) => Promise<z.input<R>>,
): void {
  const type = new ProtocolRequestType<z.infer<P>, z.infer<R>, never, void, void>(message.method);
  session.on(
    type,
    message.params,
    async (params, pace) => message.result.parse(await give(params, pace)) as z.infer<R>,
  );
}

function analysed({ t }: Session, { analysis }: About): NonNullable<About['analysis']> {
  if (analysis === undefined) throw refused(t('This file could not be analysed; its diagnostics say why.'));
  return analysis;
}

function stateOf({ project }: Session, { address }: About): { uri: string; version: number | null } {
  return { uri: address, version: project.bufferOf(address)?.version ?? null };
}

/** `tender.broom:34` */
function whereOf({ project }: Session, { file, start }: { file: string; start: number }): string {
  const line = project.documentOf(file)?.textDocument.positionAt(start).line;
  return `${decodeURIComponent(file.split('/').at(-1) ?? file)}${line === undefined ? '' : `:${line + 1}`}`;
}
