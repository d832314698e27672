/**
 * The preview's host: one panel beside the text. It shows the job that was last edited, as it stands unsaved, and passes
 * on what is done in it: going to the text, changing the text, asking what would be if.
 *
 * What comes out of the panel is checked before anything is done with it. Nothing in the panel can reach a file but
 * through an edit, which is refused where the text has moved on since the picture was drawn, and which can be undone.
 */
import * as vscode from 'vscode';
import { z } from 'zod';
import { PictureRequest, WhatIfRequest } from '../../../server/protocol.ts';
import { Sender } from '../../preview/delivery.ts';
import { type ToHost, type ToPreview, toHost } from '../../preview/messages.ts';
import { previewPage } from '../../preview/page.ts';
import { LANGUAGE } from '../extension.ts';
import { Later } from '../later.ts';
import { type Server, said } from '../server.ts';
import { exportPicture } from './export.ts';

export const PREVIEW = 'broomline.preview';

type Picture = z.infer<typeof PictureRequest.result>;

/** Pictures whose edits can still be taken: what is dragged stays while newer ones of the same text come. */
const KEPT_VERSIONS = 50;

/** What was given to a panel that is there to draw it. */
export interface PreviewDrawn {
  readonly uri: string;
  readonly version: number | null;
  readonly headline: string;
}

let current: Preview | undefined;

/** Address of the spec that the preview shows, if one is open. */
export function previewedSpec(): string | undefined {
  return current?.spec;
}

export function registerPreview(
  context: vscode.ExtensionContext,
  server: Server,
): { readonly drawn: () => PreviewDrawn | undefined } {
  const adopt = (panel: vscode.WebviewPanel, spec: string | undefined) => {
    current?.close();
    const preview = new Preview(context, server, panel, spec);
    current = preview;
    void vscode.commands.executeCommand('setContext', 'broomline.previewOpen', true);
    panel.onDidDispose(() => {
      if (current !== preview) return;
      current = undefined;
      void vscode.commands.executeCommand('setContext', 'broomline.previewOpen', false);
    });
    return preview;
  };
  const open = async (address?: vscode.Uri): Promise<Preview | undefined> => {
    const active = vscode.window.activeTextEditor?.document;
    const spec = address?.toString() ?? (active?.languageId === LANGUAGE ? active.uri.toString() : undefined);
    if (current !== undefined) {
      if (spec !== undefined) current.show(spec);
      current.panel.reveal(undefined, true);
      return current;
    }
    if (spec === undefined) {
      void vscode.window.showInformationMessage(
        vscode.l10n.t('Open a file of Broomline first; the preview shows its job.'),
      );
      return undefined;
    }
    const panel = vscode.window.createWebviewPanel(
      PREVIEW,
      vscode.l10n.t('Broomline Preview'),
      { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
      optionsOf(context),
    );
    return adopt(panel, spec);
  };
  context.subscriptions.push(
    { dispose: () => current?.close() },
    vscode.commands.registerCommand('broomline.openPreview', async (address?: unknown) => {
      await open(address instanceof vscode.Uri ? address : undefined);
    }),
    vscode.commands.registerCommand('broomline.exportPicture', async (format?: unknown, target?: unknown) => {
      const preview = await open();
      if (preview) await exportPicture(preview, format, target);
    }),
    vscode.window.registerWebviewPanelSerializer(PREVIEW, {
      deserializeWebviewPanel: async (panel, state: unknown) => {
        const kept = z.object({ file: z.string().optional() }).safeParse(state);
        panel.webview.options = optionsOf(context);
        adopt(panel, kept.success ? kept.data.file : undefined);
      },
    }),
  );
  return { drawn: () => current?.drawn };
}

function optionsOf(context: vscode.ExtensionContext): vscode.WebviewOptions {
  return { enableScripts: true, localResourceRoots: [vscode.Uri.joinPath(context.extensionUri, 'dist')] };
}

/** One open panel. */
export class Preview {
  readonly panel: vscode.WebviewPanel;
  spec: string | undefined;
  drawn: PreviewDrawn | undefined;

  private readonly server: Server;
  private readonly owned: vscode.Disposable[] = [];
  private readonly later = new Later(120);
  private ready = false;
  private asked: vscode.CancellationTokenSource | undefined;
  private trial: vscode.CancellationTokenSource | undefined;
  private readonly sender = new Sender();
  /** Texts of the last pictures that were shown, by their numbers: edits that come from one fit its versions and no others. */
  private readonly versions = new Map<number, ReadonlyMap<string, number>>();
  private readonly exports = new Map<number, (content: string) => void>();
  private exported = 0;

  constructor(context: vscode.ExtensionContext, server: Server, panel: vscode.WebviewPanel, spec: string | undefined) {
    this.server = server;
    this.panel = panel;
    this.spec = spec;
    const icon = (name: string) => vscode.Uri.joinPath(context.extensionUri, 'icons', name);
    panel.iconPath = { light: icon('file-light.svg'), dark: icon('file-dark.svg') };
    this.owned.push(
      this.later,
      panel.webview.onDidReceiveMessage((message: unknown) => void this.hear(message)),
      panel.onDidDispose(() => this.dispose()),
      vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
        if (document.languageId === LANGUAGE && contentChanges.length > 0) this.soon();
      }),
      server.onImproved(uri => {
        if (uri === this.spec) this.soon();
      }),
      // A library may have changed on disk: the findings tell.
      vscode.languages.onDidChangeDiagnostics(({ uris }) => {
        if (uris.some(uri => uri.toString() === this.spec)) this.soon();
      }),
      vscode.window.onDidChangeActiveTextEditor(editor => void this.follow(editor)),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => this.pointAt(textEditor)),
      server.client.onDidChangeState(() => this.soon()),
    );
    panel.webview.html = this.page(context);
  }

  /** Shows another spec. */
  show(spec: string): void {
    if (this.spec === spec) return;
    this.spec = spec;
    this.soon(0);
  }

  close(): void {
    this.panel.dispose();
  }

  /** The picture that is shown, as a file's content: SVG text, or a PNG as a data address. */
  picture(format: 'svg' | 'png'): Promise<string> {
    this.exported += 1;
    const id = this.exported;
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => {
        this.exports.delete(id);
        reject(new Error(vscode.l10n.t('The preview gave no picture. Is it visible?')));
      }, 20_000);
      this.exports.set(id, content => {
        clearTimeout(timer);
        resolve(content);
      });
      // A panel that was opened for this is not there yet; what is posted before it is ready would be lost.
      const ask = () => {
        if (this.drawn !== undefined) this.post({ type: 'export', id, format });
        else if (this.exports.has(id)) setTimeout(ask, 50);
      };
      ask();
    });
  }

  // --- from the panel ---

  private async hear(given: unknown): Promise<void> {
    const checked = toHost.safeParse(given);
    if (!checked.success) {
      this.server.log.error(`The preview said something strange: ${z.prettifyError(checked.error)}`);
      return;
    }
    try {
      await this.act(checked.data);
    } catch (error) {
      this.server.log.error(`preview, ${checked.data.type}: ${said(error)}`);
    }
  }

  private async act(message: ToHost): Promise<void> {
    switch (message.type) {
      case 'ready':
        this.ready = true;
        this.drawn = undefined;
        this.sender.forget();
        await this.update();
        break;
      case 'whole':
        this.sender.forget();
        await this.update();
        break;
      case 'reveal':
        await reveal(message.place);
        break;
      case 'edit':
        await this.edit(message);
        break;
      case 'whatIf':
        await this.tryOut(message);
        break;
      case 'endWhatIf':
        this.trial?.cancel();
        break;
      case 'copy':
        await vscode.env.clipboard.writeText(message.text);
        vscode.window.setStatusBarMessage(vscode.l10n.t('Copied: {0}', message.what), 4000);
        break;
      case 'exported':
        this.exports.get(message.id)?.(message.content);
        this.exports.delete(message.id);
        break;
      case 'failed':
        this.server.log.error(`The preview could not draw: ${message.message}`);
        break;
    }
  }

  /** Changes the text: one edit, one step of undo. Refused where the text is no longer the one of the picture. */
  private async edit({ picture, edits, what }: Extract<ToHost, { type: 'edit' }>): Promise<void> {
    this.trial?.cancel();
    const edit = new vscode.WorkspaceEdit();
    for (const { place, text } of edits) {
      const document = await specAt(place.file);
      if (!this.fits(picture, document)) {
        vscode.window.setStatusBarMessage(vscode.l10n.t('Not changed: the text has moved on meanwhile.'), 6000);
        await this.update();
        return;
      }
      edit.replace(document.uri, rangeIn(document, place), text);
    }
    if (await vscode.workspace.applyEdit(edit)) vscode.window.setStatusBarMessage(what, 6000);
    else vscode.window.setStatusBarMessage(vscode.l10n.t('Not changed: the file can not be written.'), 6000);
    this.soon(0);
  }

  /** Whether a text is still the one that a picture was made of. */
  private fits(picture: number, { uri, version }: vscode.TextDocument): boolean {
    const versions = this.versions.get(picture);
    if (versions === undefined) return false;
    const drawn = versions.get(uri.toString());
    // A file that was not open then.
    return drawn === undefined || drawn === version;
  }

  private async tryOut({ id, picture, edits }: Extract<ToHost, { type: 'whatIf' }>): Promise<void> {
    this.trial?.cancel();
    this.trial = new vscode.CancellationTokenSource();
    const { token } = this.trial;
    if (this.spec === undefined) return;
    for (const { place } of edits) if (!this.fits(picture, await specAt(place.file))) return;
    try {
      const answer = await this.server.ask(WhatIfRequest, { uri: this.spec, edits }, token);
      if (!token.isCancellationRequested)
        this.post({ type: 'whatIf', id, picture: this.sender.deliver(answer.picture) });
    } catch (error) {
      if (!token.isCancellationRequested) throw error;
    }
  }

  // --- to the panel ---

  private post(message: ToPreview): void {
    void this.panel.webview.postMessage(message);
  }

  private soon(milliseconds?: number): void {
    this.later.run(() => void this.update(), milliseconds);
  }

  /** Asks for the picture of the text as it is, and shows it. */
  private async update(): Promise<void> {
    const { spec } = this;
    if (!this.ready || spec === undefined || !this.server.isRunning) return;
    this.asked?.cancel();
    this.asked = new vscode.CancellationTokenSource();
    const { token } = this.asked;
    const slow = setTimeout(() => {
      if (!token.isCancellationRequested) this.post({ type: 'computing' });
    }, 200);
    try {
      const picture = await this.server.ask(PictureRequest, { uri: spec }, token);
      if (token.isCancellationRequested) return;
      this.give(picture);
    } catch (error) {
      if (token.isCancellationRequested) return;
      this.server.log.error(`picture: ${said(error)}`);
      this.post({ type: 'fault', message: said(error) });
    } finally {
      clearTimeout(slow);
    }
  }

  private give({ uri, version, picture, broken }: Picture): void {
    if (broken !== null && this.drawn?.uri === uri) {
      this.post({ type: 'broken', ...broken });
      this.drawn = { uri, version, headline: broken.message };
      return;
    }
    const delivery = this.sender.deliver(picture);
    const versions = vscode.workspace.textDocuments
      .filter(each => each.languageId === LANGUAGE)
      .map(
        each =>
          [each.uri.toString(), each.uri.toString() === uri && version !== null ? version : each.version] as const,
      );
    this.versions.set(delivery.number, new Map(versions));
    for (const old of [...this.versions.keys()].slice(0, -KEPT_VERSIONS)) this.versions.delete(old);
    const now = new Date();
    const two = (number: number) => String(number).padStart(2, '0');
    this.post({ type: 'show', picture: delivery, clock: `${two(now.getHours())}:${two(now.getMinutes())}` });
    if (broken !== null) this.post({ type: 'broken', ...broken });
    this.drawn = { uri, version, headline: picture.verdict.headline };
    this.panel.title =
      picture.job === '' ? vscode.l10n.t('Broomline Preview') : vscode.l10n.t('Preview of {0}', picture.job);
    const editor = vscode.window.visibleTextEditors.find(each => each.document.uri.toString() === uri);
    if (editor) this.pointAt(editor);
  }

  /** The editor that is active now shows a spec: the preview goes with it, but not to a library, which has no job. */
  private async follow(editor: vscode.TextEditor | undefined): Promise<void> {
    const document = editor?.document;
    if (document?.languageId !== LANGUAGE || document.uri.toString() === this.spec) return;
    if (/^\s*job\s/m.test(document.getText())) this.show(document.uri.toString());
  }

  private pointAt({ document, selection }: vscode.TextEditor): void {
    if (!this.ready || document.languageId !== LANGUAGE) return;
    if (!vscode.workspace.getConfiguration(LANGUAGE).get('preview.followCursor', true)) return;
    this.post({
      type: 'cursor',
      file: document.uri.toString(),
      offset: document.offsetAt(selection.active),
      line: selection.active.line + 1,
    });
  }

  private page(context: vscode.ExtensionContext): string {
    const { webview } = this.panel;
    const at = (name: string) =>
      webview.asWebviewUri(vscode.Uri.joinPath(context.extensionUri, 'dist', name)).toString();
    return previewPage({
      script: at('preview.js'),
      style: at('preview.css'),
      source: webview.cspSource,
      nonce: nonce(),
      title: vscode.l10n.t('Broomline Preview'),
      language: vscode.env.language,
      words: vscode.l10n.bundle,
    });
  }

  private dispose(): void {
    this.asked?.cancel();
    this.trial?.cancel();
    vscode.Disposable.from(...this.owned).dispose();
  }
}

type Place = Extract<ToHost, { type: 'reveal' }>['place'];

/** Shows a place in the text, in the column where its file is open already. */
async function reveal(place: Place): Promise<void> {
  const document = await specAt(place.file);
  const visible = vscode.window.visibleTextEditors.find(each => each.document === document);
  const range = rangeIn(document, place);
  const editor = await vscode.window.showTextDocument(document, {
    viewColumn: visible?.viewColumn ?? vscode.ViewColumn.One,
    preview: visible === undefined,
  });
  // The cursor goes to the beginning, where the name stands.
  editor.selection = new vscode.Selection(range.end, range.start);
  editor.revealRange(range, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
}

/** The document of a spec. Nothing else is opened for the panel, whatever address it names. */
async function specAt(file: string): Promise<vscode.TextDocument> {
  const uri = vscode.Uri.parse(file, true);
  if (!uri.path.endsWith('.broom')) throw new Error(`${file} is no file of Broomline`);
  return vscode.workspace.openTextDocument(uri);
}

function rangeIn(document: vscode.TextDocument, { start, end }: Place): vscode.Range {
  return new vscode.Range(document.positionAt(start), document.positionAt(end));
}

/** A number that is used once: only the script that the host names may run. */
function nonce(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), byte => byte.toString(16).padStart(2, '0')).join('');
}
