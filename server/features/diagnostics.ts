/**
 * Findings as one types. Pushed to clients that only take them so, pulled by those that can. What is shown always belongs
 * to one state of the text: nothing is published while a newer text waits, and nothing that is already shown again.
 */
import {
  type ClientCapabilities,
  type Diagnostic,
  DiagnosticRefreshRequest,
  DiagnosticSeverity,
  DiagnosticTag,
  type DocumentDiagnosticReport,
  DocumentDiagnosticRequest,
  WorkspaceDiagnosticRequest,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import { z } from 'zod';
import type { Finding } from '../../language/checks/check.ts';
import { checkByCode } from '../../language/checks/registry.ts';
import { workspaceFiles } from '../project/files.ts';
import { locationOf, rangeIn } from '../project/positions.ts';
import { type BroomDocument, keyOf, type Project } from '../project/project.ts';
import type { Feature, Session } from '../session.ts';
import { pageAddress, servesPages } from './checkPages.ts';

export const SOURCE = 'broomline';

const pulls = (client: ClientCapabilities): boolean => client.textDocument?.diagnostic !== undefined;

export const diagnostics: Feature = {
  capabilities: client =>
    pulls(client)
      ? {
          diagnosticProvider: {
            identifier: SOURCE,
            interFileDependencies: true,
            workspaceDiagnostics: true,
            workDoneProgress: true,
          },
        }
      : {},
  register: session => {
    if (pulls(session.client)) registerPull(session);
    else registerPush(session);
  },
};

/** The findings that stand in a file: its own, and those that jobs which are open and use it brought out in it. */
export function findingsIn(project: Project, document: BroomDocument): readonly Finding[] {
  const key = document.uri.toString();
  const users = project.dependentsOf(key);
  const found = new Map<string, Finding>();
  const add = (from: BroomDocument) => {
    for (const finding of project.analysisOf(from)?.findings ?? []) {
      if (finding.place.file !== key) continue;
      const { code, message, place } = finding;
      const same = JSON.stringify([code, place.start, place.end, message]);
      if (!found.has(same)) found.set(same, finding);
    }
  };
  add(document);
  for (const open of project.openFiles()) {
    const user = users.has(keyOf(open)) ? project.documentOf(open) : undefined;
    if (user !== undefined && user !== document) add(user);
  }
  return [...found.values()].toSorted((a, b) => a.place.start - b.place.start);
}

export function diagnosticsOf(session: Session, document: BroomDocument): Diagnostic[] {
  const { project } = session;
  const known = project.known(document);
  if ('fault' in known) return [faultOf(session, known.fault)];
  return findingsIn(project, document).map(finding => diagnosticOf(session, document, finding));
}

const severities = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  hint: DiagnosticSeverity.Information,
};

export function diagnosticOf(session: Session, document: BroomDocument, finding: Finding): Diagnostic {
  const { code, message, place, related = [], severity, unused, waived } = finding;
  const relatedInformation =
    session.client.textDocument?.publishDiagnostics?.relatedInformation === false
      ? []
      : related.flatMap(each => {
          const location = locationOf(session.project, each.place);
          return location ? [{ location, message: each.message }] : [];
        });
  const href = checkByCode.has(code) && servesPages(session.client) ? pageAddress(code) : undefined;
  return {
    range: rangeIn(document, place.start, Math.max(place.end, place.start)),
    severity: waived ? DiagnosticSeverity.Hint : severities[severity],
    code,
    source: SOURCE,
    message: waived ? `${waivedText(session, waived)}\n${message}` : message,
    ...(href !== undefined && { codeDescription: { href } }),
    ...(unused && { tags: [DiagnosticTag.Unnecessary] }),
    ...(relatedInformation.length > 0 && { relatedInformation }),
  };
}

function waivedText({ t }: Session, { by, until, reason }: NonNullable<Finding['waived']>): string {
  return until ? t('Waived by {0} until {1}: {2}', by, until, reason) : t('Waived by {0}: {1}', by, reason);
}

function faultOf({ t }: Session, fault: string): Diagnostic {
  const start = { line: 0, character: 0 };
  return {
    range: { start, end: start },
    severity: DiagnosticSeverity.Error,
    code: 'analysis-failed',
    source: SOURCE,
    message: t(
      'This file could not be analysed, because of a defect in broomline itself. Nothing is known of what is wrong in it. Report it with this text: {0}',
      fault.split('\n').slice(0, 3).join(' '),
    ),
  };
}

// --- push ---

function registerPush(session: Session): void {
  const { connection, project, environment } = session;
  /** What the client shows, by address. */
  const shown = new Map<string, string>();
  const waiting = new Set<string>();
  /** How long the last analysis of a file took. */
  const costs = new Map<string, number>();
  let cancel: (() => void) | undefined;
  let running = false;

  const schedule = (changed: Iterable<string>) => {
    for (const address of changed) waiting.add(address);
    if (running) return;
    // Waiting joins key presses. It pays only where one analysis takes longer than the pause between two of them.
    const longest = Math.max(0, ...[...waiting].map(address => costs.get(address) ?? 0));
    const wait = longest < WORTH_WAITING ? 0 : Math.min(longest, session.settings.budgets.wait);
    cancel?.();
    cancel = environment.later(() => void run(), wait);
  };

  const run = async () => {
    cancel = undefined;
    running = true;
    try {
      for (const address of waiting) {
        waiting.delete(address);
        await publish(address);
        await environment.breathe();
        if (session.ended) waiting.clear();
      }
    } catch (error) {
      // The editor is gone, or takes nothing more; there is nobody to tell.
      if (!session.ended) connection.console.error(`Diagnostics were not published: ${String(error)}`);
    } finally {
      running = false;
      if (waiting.size > 0) schedule([]);
    }
  };

  const publish = async (address: string) => {
    if (!project.isOpen(address)) {
      // Closed: what stood there is no longer one's business.
      if (shown.delete(address)) await connection.sendDiagnostics({ uri: address, diagnostics: [] });
      return;
    }
    const document = await project.ready(address);
    const buffer = project.bufferOf(address);
    if (document === undefined || buffer === undefined) return;
    const began = environment.clock();
    const diagnostics = diagnosticsOf(session, document);
    costs.set(address, environment.clock() - began);
    // The version too: an editor that waits for the findings of its newest text has to hear that they are the same.
    const content = JSON.stringify([buffer.version, diagnostics]);
    if (shown.get(address) === content) return;
    shown.set(address, content);
    await connection.sendDiagnostics({ uri: buffer.uri, version: buffer.version, diagnostics });
  };

  session.onChange.push(changed => schedule(withWhatTheyUse(session, changed)));
  session.onSettings.push(() => schedule(project.openFiles()));
  session.onImproved.push(address => schedule([address]));
}

/** An analysis that takes less, ms, is shown at every key of one who types fast: what came meanwhile is joined anyway. */
const WORTH_WAITING = 150;

/** Open files that a changed file brings in may show findings that it caused. */
function withWhatTheyUse({ project }: Session, changed: ReadonlySet<string>): readonly string[] {
  const keys = new Set([...changed].map(keyOf));
  const also = project.openFiles().filter(open => {
    if (changed.has(open)) return false;
    for (const user of project.dependentsOf(open)) if (keys.has(user)) return true;
    return false;
  });
  return [...changed, ...also];
}

// --- pull ---

function registerPull(session: Session): void {
  const { connection, project } = session;
  const refresh = () => {
    if (session.client.workspace?.diagnostics?.refreshSupport) {
      void connection.sendRequest(DiagnosticRefreshRequest.type).catch(() => undefined);
    }
  };
  session.onSettings.push(refresh);
  session.onImproved.push(refresh);
  session.onChange.push(changed => {
    // The client asks again for what it changed itself; it can't know what else depends on that.
    if ([...changed].some(address => !project.isOpen(address)) || changed.size > 1) refresh();
  });

  session.onDocument(
    DocumentDiagnosticRequest.type,
    async ({ document }, params): Promise<DocumentDiagnosticReport> => {
      await loadUsers(session, document);
      return reportOf(session, document, params.previousResultId);
    },
  );

  const schema = z.looseObject({
    previousResultIds: z.array(z.looseObject({ uri: z.string(), value: z.string() })).optional(),
  });
  session.on(WorkspaceDiagnosticRequest.type, schema, async (params, pace) => {
    const before = new Map((params.previousResultIds ?? []).map(({ uri, value }) => [keyOf(uri), value]));
    const files =
      session.settings.diagnostics.scope === 'workspace' ? await workspaceFiles(session, pace) : project.openFiles();
    const items: WorkspaceDocumentDiagnosticReport[] = [];
    pace.progress?.begin(session.t('Checking the workspace'), 0, undefined, true);
    for (const [at, address] of files.entries()) {
      await pace.step();
      pace.progress?.report(Math.round((100 * at) / files.length));
      const document = await project.ready(address);
      if (document === undefined) continue;
      const report = reportOf(session, document, before.get(keyOf(address)));
      const version = project.bufferOf(address)?.version ?? null;
      items.push({ ...report, uri: project.addressOf(keyOf(address)), version } as WorkspaceDocumentDiagnosticReport);
      before.delete(keyOf(address));
    }
    // A file that is gone, or no longer asked about, shows nothing more.
    for (const key of before.keys()) {
      items.push({ kind: 'full', uri: project.addressOf(key), version: null, items: [], resultId: 'none' });
    }
    pace.progress?.done();
    return { items };
  });
}

/** Jobs that are open and use this file are brought up to date too: what they found in it is shown in it. */
async function loadUsers({ project }: Session, document: BroomDocument): Promise<void> {
  const users = project.dependentsOf(document.uri.toString());
  for (const open of project.openFiles()) if (users.has(keyOf(open))) await project.ready(open);
}

function reportOf(session: Session, document: BroomDocument, previous: string | undefined): DocumentDiagnosticReport {
  const items = diagnosticsOf(session, document);
  const resultId = fingerprint(JSON.stringify(items));
  return resultId === previous ? { kind: 'unchanged', resultId } : { kind: 'full', items, resultId };
}

/** FNV-1a over the text, twice with different seeds: long enough that two states of a file do not share one. */
function fingerprint(text: string): string {
  let [a, b] = [0x811c9dc5, 0x1b873593];
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    a = Math.imul(a ^ code, 0x01000193);
    b = Math.imul(b ^ code, 0x85ebca6b) ^ (b >>> 13);
  }
  return `${(a >>> 0).toString(36)}${(b >>> 0).toString(36)}${text.length.toString(36)}`;
}
