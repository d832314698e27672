/** A client for tests: the server over streams in memory or as a process, files in a table, and texts with marks in them. */
import { PassThrough } from 'node:stream';
import { type FileSystemNode, URI } from 'langium';
import { createConnection } from 'vscode-languageserver/node';
import {
  type ClientCapabilities,
  createProtocolConnection,
  type Diagnostic,
  type InitializeResult,
  type Position,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  type Range,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver-protocol/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Environment, ReadOnlyFiles } from '../../server/environment.ts';
import { nodeEnvironment } from '../../server/main/node.ts';
import { type Running, startServer } from '../../server/start.ts';

export const ROOT = 'file:///airfield';

/** A table of files below /airfield. A text of null is listed, but can't be read. It counts what was read. */
export function memoryFiles(texts: Map<string, string | null>): ReadOnlyFiles & { readonly reads: string[] } {
  const reads: string[] = [];
  const paths = () => [...texts.keys()].map(name => `/airfield/${name}`);
  return {
    reads,
    async readFile(uri) {
      reads.push(uri.path);
      const text = texts.get(uri.path.replace('/airfield/', ''));
      if (text === undefined || text === null) throw new Error('can not be read');
      return text;
    },
    async readDirectory(uri) {
      const found = new Map<string, FileSystemNode>();
      const base = `${uri.path.replace(/\/$/, '')}/`;
      for (const path of paths()) {
        if (!path.startsWith(base)) continue;
        const [name, ...more] = path.slice(base.length).split('/');
        const isFile = more.length === 0;
        found.set(name!, { isFile, isDirectory: !isFile, uri: URI.file(base + name) });
      }
      return [...found.values()];
    },
    async exists(uri) {
      return paths().includes(uri.path);
    },
  };
}

export interface Options {
  readonly capabilities?: ClientCapabilities;
  readonly settings?: unknown;
  /** Table of words that the client hands over. */
  readonly words?: unknown;
  readonly environment?: Partial<Environment>;
}

/** Capabilities of an editor that can do everything. */
export const FULL: ClientCapabilities = {
  workspace: {
    workspaceEdit: { documentChanges: true, resourceOperations: ['create', 'rename', 'delete'] },
    configuration: false,
    textDocumentContent: {},
    diagnostics: { refreshSupport: false },
  },
  textDocument: {
    publishDiagnostics: { relatedInformation: true, tagSupport: { valueSet: [1, 2] }, codeDescriptionSupport: true },
    completion: {
      completionItem: { snippetSupport: true, documentationFormat: ['markdown'], labelDetailsSupport: true },
    },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: [] } }, disabledSupport: true },
    hover: { contentFormat: ['markdown'] },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
  },
};

export interface Client {
  readonly connection: ProtocolConnection;
  readonly initialized: InitializeResult;
  readonly files: Map<string, string | null>;
  readonly reads: readonly string[];
  readonly running: Running;
  readonly logged: string[];
  /** Text of an open file as the editor has it. */
  text(name: string): string;
  version(name: string): number;
  open(name: string, text?: string): void;
  /** Replaces the text, or a range of it. */
  edit(name: string, text: string, range?: Range): void;
  close(name: string): void;
  /** Diagnostics of the newest text; waits for them. */
  diagnostics(name: string): Promise<readonly Diagnostic[]>;
  /** Everything that was published, in order. */
  readonly published: readonly PublishDiagnosticsParams[];
  forgetPublished(): void;
  request<R = unknown>(method: string, params: unknown): Promise<R>;
  /** Position right behind the nth occurrence of the text; `|` in it marks another place. */
  at(name: string, needle: string, nth?: number): { textDocument: { uri: string }; position: Position };
  apply(edit: WorkspaceEdit | null | undefined): void;
  dispose(): Promise<void>;
}

export function uriOf(name: string): string {
  return /^[a-z]+:/.test(name) ? name : `${ROOT}/${name}`;
}

/** Starts a server in memory over a table of files and initialises it. */
export async function startClient(texts: Record<string, string | null> = {}, options: Options = {}): Promise<Client> {
  const files = new Map(Object.entries(texts));
  const disk = memoryFiles(files);
  const [up, down] = [new PassThrough(), new PassThrough()];
  const server = createConnection(up, down);
  const running = startServer(server, { ...nodeEnvironment(disk), ...options.environment });
  const connection = createProtocolConnection(down, up);
  return clientOf(connection, { files, running, reads: disk.reads, root: ROOT, options });
}

/** A client over a connection that is not yet listening. */
export async function clientOf(
  connection: ProtocolConnection,
  about: {
    files: Map<string, string | null>;
    running: Running;
    reads: readonly string[];
    root: string;
    options: Options;
  },
): Promise<Client> {
  const { files, running, reads, root, options } = about;
  const buffers = new Map<string, TextDocument>();
  const published: PublishDiagnosticsParams[] = [];
  const latest = new Map<string, PublishDiagnosticsParams>();
  const logged: string[] = [];
  const listeners = new Set<(params: PublishDiagnosticsParams) => void>();
  const where = (name: string) => (/^[a-z]+:/.test(name) ? name : `${root}/${name}`);
  connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
    published.push(params);
    latest.set(params.uri, params);
    for (const listen of listeners) listen(params);
  });
  connection.onNotification('window/logMessage', (params: { message: string }) => {
    logged.push(params.message);
  });
  connection.onRequest('client/registerCapability', () => null);
  connection.onRequest('window/workDoneProgress/create', () => null);
  connection.listen();
  const initialized = await connection.sendRequest<InitializeResult>('initialize', {
    processId: null,
    rootUri: root,
    workspaceFolders: [{ uri: root, name: 'airfield' }],
    capabilities: options.capabilities ?? FULL,
    ...((options.settings !== undefined || options.words !== undefined) && {
      initializationOptions: { settings: options.settings, words: options.words },
    }),
  });
  await connection.sendNotification('initialized', {});
  const bufferOf = (name: string): TextDocument => {
    const buffer = buffers.get(where(name));
    if (buffer === undefined) throw new Error(`${name} is not open in this test`);
    return buffer;
  };
  const client: Client = {
    connection,
    initialized,
    files,
    reads,
    running,
    logged,
    published,
    text: name => bufferOf(name).getText(),
    version: name => bufferOf(name).version,
    forgetPublished: () => void published.splice(0, published.length),
    open(name, text = files.get(name) ?? '') {
      const uri = where(name);
      buffers.set(uri, TextDocument.create(uri, 'broomline', 1, text));
      void connection.sendNotification('textDocument/didOpen', {
        textDocument: { uri, languageId: 'broomline', version: 1, text },
      });
    },
    edit(name, text, range) {
      const buffer = bufferOf(name);
      const version = buffer.version + 1;
      const change = range ? { range, text } : { text };
      buffers.set(where(name), TextDocument.update(buffer, [change], version));
      void connection.sendNotification('textDocument/didChange', {
        textDocument: { uri: where(name), version },
        contentChanges: [change],
      });
    },
    close(name) {
      buffers.delete(where(name));
      void connection.sendNotification('textDocument/didClose', { textDocument: { uri: where(name) } });
    },
    async diagnostics(name) {
      const uri = where(name);
      if (initialized.capabilities.diagnosticProvider) {
        const report = await connection.sendRequest<{ items: Diagnostic[] }>('textDocument/diagnostic', {
          textDocument: { uri },
        });
        return report.items;
      }
      const { version } = bufferOf(name);
      if (latest.get(uri)?.version === version) return latest.get(uri)!.diagnostics;
      const found = await new Promise<readonly Diagnostic[] | undefined>(resolve => {
        const stop = setTimeout(() => resolve(undefined), 60_000);
        listeners.add(function listen(params) {
          if (params.uri !== uri || params.version !== version) return;
          clearTimeout(stop);
          listeners.delete(listen);
          resolve(params.diagnostics);
        });
      });
      if (found) return found;
      throw new Error(`no diagnostics for ${name}`);
    },
    request: (method, params) => connection.sendRequest(method, params as never),
    at(name, needle, nth = 1) {
      const buffer = bufferOf(name);
      const mark = needle.indexOf('|');
      const plain = mark < 0 ? needle : needle.slice(0, mark) + needle.slice(mark + 1);
      let start = -1;
      for (let i = 0; i < nth; i++) start = buffer.getText().indexOf(plain, start + 1);
      if (start < 0) throw new Error(`'${plain}' is not in ${name}`);
      const position = buffer.positionAt(start + (mark < 0 ? plain.length : mark));
      return { textDocument: { uri: where(name) }, position };
    },
    apply(edit) {
      const changes = new Map<string, TextEdit[]>(Object.entries(edit?.changes ?? {}));
      for (const change of edit?.documentChanges ?? []) {
        if ('textDocument' in change) changes.set(change.textDocument.uri, change.edits as TextEdit[]);
        else if (change.kind === 'create') {
          files.set(change.uri.replace(`${root}/`, ''), '');
          buffers.set(change.uri, TextDocument.create(change.uri, 'broomline', 0, ''));
        }
      }
      for (const [uri, edits] of changes) {
        const name = uri.replace(`${root}/`, '');
        const before = buffers.get(uri) ?? TextDocument.create(uri, 'broomline', 0, files.get(name) ?? '');
        const after = TextDocument.applyEdits(before, edits);
        if (buffers.has(uri)) client.edit(name, after);
        files.set(name, after);
      }
    },
    async dispose() {
      await connection.sendRequest('shutdown');
      connection.dispose();
      running.session?.connection.dispose();
    },
  };
  return client;
}
