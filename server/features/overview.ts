/** A job at a glance, for the editor's status and for picking a quantity by name; light, so it can follow the typing. */
import { ProtocolRequestType } from 'vscode-languageserver';
import type { z } from 'zod';
import { shownValue } from '../../language/explain/render.ts';
import { isoAt } from '../../language/schedule/calendar.ts';
import type { Schedule } from '../../language/schedule/schedule.ts';
import { OverviewRequest } from '../protocol.ts';
import { type Feature, refused } from '../session.ts';
import { findingsIn } from './diagnostics.ts';

type Overview = z.infer<typeof OverviewRequest.result>;

export const overview: Feature = {
  capabilities: () => ({}),
  register: session => {
    const type = new ProtocolRequestType<z.infer<typeof OverviewRequest.params>, Overview, never, void, void>(
      OverviewRequest.method,
    );
    session.on(type, OverviewRequest.params, async ({ uri }, pace): Promise<Overview> => {
      const { analysis, document, address } = await session.about(uri, pace.token);
      if (analysis === undefined) throw refused(session.t('This file could not be analysed; its diagnostics say why.'));
      const findings = findingsIn(session.project, document);
      const open = findings.filter(each => each.waived === undefined);
      const number = (severity: string) => open.filter(each => each.severity === severity).length;
      const { job, quantities, schedule } = analysis;
      const currency = job.blocks.jobs[0]?.currency?.value;
      const system = session.system(analysis);
      return {
        uri: address,
        version: session.project.bufferOf(address)?.version ?? null,
        job: job.blocks.jobs[0]?.name ?? '',
        findings: {
          errors: number('error'),
          warnings: number('warning'),
          hints: number('hint'),
          waived: findings.length - open.length,
        },
        schedule: scheduleAtAGlance(schedule),
        quantities: [...quantities.values()].map(each => ({
          path: each.path,
          label: each.label,
          shown: shownValue(each, system, currency === undefined ? {} : { currency }),
        })),
      };
    });
  },
};

function scheduleAtAGlance({ state, nights, proof, zero, timeZone }: Schedule): Overview['schedule'] {
  const last = nights.at(-1);
  return {
    state,
    closures: nights.length,
    provedLeast: proof?.provedLeast ?? false,
    provedEarliest: proof?.provedEarliest ?? false,
    clear:
      last === undefined || zero === undefined || timeZone === undefined ? null : isoAt(zero + last.clear, timeZone),
    spare: last === undefined ? null : last.handBack - last.clear,
  };
}
