/** Two items in the language status of a file: its findings, and the closures its job takes with what is proved of them. */
import * as vscode from 'vscode';
import type { z } from 'zod';
import { OverviewRequest } from '../../server/protocol.ts';
import { LANGUAGE } from './extension.ts';
import { Later } from './later.ts';
import { type Server, said } from './server.ts';

export type Overview = z.infer<typeof OverviewRequest.result>;

export function registerStatus(context: vscode.ExtensionContext, server: Server): void {
  const selector = { language: LANGUAGE };
  const findings = vscode.languages.createLanguageStatusItem('broomline.findings', selector);
  findings.name = vscode.l10n.t('Broomline findings');
  findings.command = { title: vscode.l10n.t('Show'), command: 'workbench.actions.view.problems' };
  const schedule = vscode.languages.createLanguageStatusItem('broomline.schedule', selector);
  schedule.name = vscode.l10n.t('Broomline schedule');
  schedule.command = { title: vscode.l10n.t('Preview'), command: 'broomline.openPreview' };
  const later = new Later(250);
  let asked: vscode.CancellationTokenSource | undefined;

  const update = async (): Promise<void> => {
    const document = vscode.window.activeTextEditor?.document;
    if (document?.languageId !== LANGUAGE || !server.isRunning) return;
    asked?.cancel();
    asked = new vscode.CancellationTokenSource();
    const { token } = asked;
    findings.busy = schedule.busy = true;
    try {
      const overview = await server.ask(OverviewRequest, { uri: document.uri.toString() }, token);
      if (token.isCancellationRequested) return;
      findings.text = findingsText(overview.findings);
      findings.severity = severityOf(overview.findings);
      [schedule.text, schedule.detail] = scheduleTexts(overview.schedule);
      schedule.severity = ['impossible', 'open'].includes(overview.schedule.state)
        ? vscode.LanguageStatusSeverity.Error
        : vscode.LanguageStatusSeverity.Information;
    } catch (error) {
      if (token.isCancellationRequested) return;
      server.log.debug(`overview: ${said(error)}`);
      findings.text = vscode.l10n.t('The findings are not known');
    } finally {
      if (!token.isCancellationRequested) findings.busy = schedule.busy = false;
    }
  };
  const soon = () => later.run(() => void update());
  context.subscriptions.push(
    findings,
    schedule,
    later,
    vscode.window.onDidChangeActiveTextEditor(soon),
    server.onImproved(soon),
    vscode.languages.onDidChangeDiagnostics(({ uris }) => {
      const active = vscode.window.activeTextEditor?.document.uri.toString();
      if (uris.some(uri => uri.toString() === active)) soon();
    }),
    vscode.workspace.onDidChangeTextDocument(({ document }) => {
      if (document === vscode.window.activeTextEditor?.document) soon();
    }),
  );
  server.client.onDidChangeState(soon);
}

export function findingsText({ errors, warnings, waived }: Overview['findings']): string {
  const parts = [
    errors === 1 ? vscode.l10n.t('1 error') : vscode.l10n.t('{0} errors', errors),
    warnings === 1 ? vscode.l10n.t('1 warning') : vscode.l10n.t('{0} warnings', warnings),
    ...(waived > 0 ? [vscode.l10n.t('{0} waived', waived)] : []),
  ];
  return errors + warnings + waived === 0 ? vscode.l10n.t('No findings') : parts.join(', ');
}

function severityOf({ errors, warnings }: Overview['findings']): vscode.LanguageStatusSeverity {
  if (errors > 0) return vscode.LanguageStatusSeverity.Error;
  return warnings > 0 ? vscode.LanguageStatusSeverity.Warning : vscode.LanguageStatusSeverity.Information;
}

/** The item's text and, smaller, what is proved. */
export function scheduleTexts({ state, closures, provedLeast, clear }: Overview['schedule']): [string, string] {
  switch (state) {
    case 'nothing':
      return [vscode.l10n.t('Nothing to schedule'), ''];
    case 'impossible':
      return [vscode.l10n.t('No schedule'), vscode.l10n.t('proved impossible')];
    case 'open':
      return [vscode.l10n.t('No schedule found yet'), ''];
    default: {
      const taken = closures === 1 ? vscode.l10n.t('1 closure') : vscode.l10n.t('{0} closures', closures);
      const proof = provedLeast ? vscode.l10n.t('proved the fewest') : vscode.l10n.t('not proved the fewest');
      // ISO 8601: the local date and the clock stand at fixed places.
      const back = clear === null ? '' : vscode.l10n.t('clear {0} {1}', clear.slice(0, 10), clear.slice(11, 16));
      return [taken, [proof, back].filter(each => each !== '').join(', ')];
    }
  }
}
