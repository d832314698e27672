/** The parameters of a method while its call is being written. */
import { MarkupKind, type SignatureHelp, SignatureHelpRequest } from 'vscode-languageserver';
import { isBlock } from '../../language/generated/ast.ts';
import { cursorAt } from '../project/cursor.ts';
import { parameterText, signatureOf } from '../project/describe.ts';
import type { Feature } from '../session.ts';
import { namedIn, openCall } from './completion.ts';
import { FUNCTIONS } from './hover.ts';

export const signatureHelp: Feature = {
  capabilities: () => ({ signatureHelpProvider: { triggerCharacters: ['(', ','], retriggerCharacters: [':'] } }),
  register: session =>
    session.onPosition(SignatureHelpRequest.type, ({ document, analysis, text, offset }): SignatureHelp | null => {
      const cursor = cursorAt(text, offset);
      const call = cursor.inComment || cursor.inText ? undefined : openCall(cursor.statement);
      if (call === undefined) return null;
      const item = call.inside.slice(call.inside.lastIndexOf(',') + 1);
      const method = namedIn(session.project, document, cursor, call.called);
      const name = call.called.join('.');
      if (!isBlock(method)) {
        const text = FUNCTIONS[name];
        return text === undefined
          ? null
          : {
              signatures: [
                { label: text.split('\n')[0]!.replaceAll('*', ''), documentation: text.split('\n').at(-1)! },
              ],
              activeSignature: 0,
              activeParameter: 0,
            };
      }
      const parameters = session.project.names.parametersOf(method);
      if (parameters.length === 0)
        return {
          signatures: [{ label: session.t('{0}, which takes nothing', name) }],
          activeSignature: 0,
          activeParameter: 0,
        };
      const labels = parameters.map(signatureOf);
      const given = /^\s*([\p{L}_][\p{L}\p{N}_-]*)/u.exec(item)?.[1];
      const named = parameters.findIndex(each => each.name === given);
      const taken = new Set([...call.inside.matchAll(/([\p{L}_][\p{L}\p{N}_-]*)\s*:/gu)].map(match => match[1]));
      const next = parameters.findIndex(each => !taken.has(each.name));
      const active = named >= 0 ? named : Math.max(0, next);
      return {
        signatures: [
          {
            label: `${name}(${labels.join(', ')})`,
            parameters: parameters.map((each, i) => ({
              label: labels[i]!,
              documentation: { kind: MarkupKind.Markdown, value: parameterText(each, analysis, session) },
            })),
            activeParameter: active,
          },
        ],
        activeSignature: 0,
        activeParameter: active,
      };
    }),
};
