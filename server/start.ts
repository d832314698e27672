/**
 * The language server. `startServer` wires a connection to the features; where it runs, and how it reads files, comes in
 * with the environment, so Node and a browser's worker run the same code.
 */

import { URI } from 'langium';
import {
  type ClientCapabilities,
  type Connection,
  type InitializeParams,
  type InitializeResult,
  type ServerCapabilities,
  TextDocumentSyncKind,
} from 'vscode-languageserver';
import { translator } from '../language/pictures/words.ts';
import { asFileSystem, type Environment } from './environment.ts';
import { features } from './features/index.ts';
import { tidyBetweenKeys } from './idle.ts';
import { Project } from './project/project.ts';
import { Session } from './session.ts';
import { defaultSettings, readSettings } from './settings.ts';

export const SERVER_NAME = 'broomline';

/** Starts to serve; returns at once. The session comes with the `initialize` request. */
export function startServer(connection: Connection, environment: Environment): Running {
  const running: { session?: Session } = {};
  connection.onInitialize(params => {
    const client = params.capabilities;
    const project = new Project(asFileSystem(environment.files), () => patience(environment));
    project.setFolders(foldersOf(params));
    const options = params.initializationOptions as InitializationOptions | undefined;
    const { settings } = readSettings(options?.settings);
    const session = new Session(
      connection,
      project,
      environment,
      client,
      settings,
      translator(tableOf(options?.words)),
    );
    running.session = session;
    project.setAsOf(settings.asOf ?? undefined);
    for (const feature of features) feature.register(session);
    registerSync(session);
    tidyBetweenKeys(session);
    return { capabilities: capabilitiesOf(client), serverInfo: { name: SERVER_NAME } } satisfies InitializeResult;
  });
  connection.onInitialized(() => {
    if (running.session) afterwards(running.session);
  });
  connection.onShutdown(() => {
    if (running.session) running.session.ended = true;
  });
  connection.listen();
  return running;
}

/** What a client of our own sends along, and any other may. */
interface InitializationOptions {
  readonly settings?: unknown;
  /** English texts and what stands for them in the reader's language: the table itself, since a worker reads no files. */
  readonly words?: unknown;
}

function tableOf(words: unknown): Readonly<Record<string, unknown>> {
  return typeof words === 'object' && words !== null ? (words as Readonly<Record<string, unknown>>) : {};
}

/** The search for a schedule may hold up the first findings so long, ms; most jobs are done by then. */
const PATIENCE = 12;

function patience({ clock }: Environment): () => boolean {
  const began = clock();
  return () => clock() - began > PATIENCE;
}

/** What a test or a bench may look into. */
export interface Running {
  readonly session?: Session;
}

/** Everything the server can do for this client: the capabilities of all features, joined. */
export function capabilitiesOf(client: ClientCapabilities): ServerCapabilities {
  const base: ServerCapabilities = {
    positionEncoding: 'utf-16',
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: true },
    workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
  };
  const { workspace, ...rest } = base;
  const all = features.map(feature => feature.capabilities(client));
  return Object.assign({}, rest, ...all, {
    workspace: Object.assign({}, workspace, ...all.map(each => each.workspace)),
  });
}

function foldersOf(params: InitializeParams): readonly URI[] {
  if (params.workspaceFolders?.length) return params.workspaceFolders.map(folder => URI.parse(folder.uri));
  const root = params.rootUri ?? (params.rootPath ? URI.file(params.rootPath).toString() : undefined);
  return root ? [URI.parse(root)] : [];
}

// --- texts ---

function registerSync(session: Session): void {
  const { connection, project } = session;
  const affected = (address: string) => {
    const key = URI.parse(address).toString();
    const users = project.dependentsOf(key);
    return new Set([address, ...project.openFiles().filter(open => users.has(URI.parse(open).toString()))]);
  };
  const tell = (changed: ReadonlySet<string>) => {
    for (const listen of session.onChange) listen(changed);
  };
  const quietly = (what: string, work: () => void) => {
    try {
      work();
    } catch (error) {
      connection.console.error(`${what}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
    }
  };
  connection.onDidOpenTextDocument(({ textDocument: { uri, languageId, version, text } }) =>
    quietly('didOpen', () => {
      project.lookAgain();
      project.open(uri, languageId, version, text);
      tell(affected(uri));
    }),
  );
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) =>
    quietly('didChange', () => {
      if (!project.change(uri, version, contentChanges))
        connection.console.warn(`A change of ${uri}, which is not open, was ignored.`);
      else tell(affected(uri));
    }),
  );
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) =>
    quietly('didClose', () => {
      const users = affected(uri);
      project.close(uri);
      tell(users);
    }),
  );
  connection.onDidSaveTextDocument(() => quietly('didSave', () => project.lookAgain()));
  connection.onDidChangeWatchedFiles(({ changes }) =>
    quietly('didChangeWatchedFiles', () => {
      const all = new Set<string>();
      for (const { uri } of changes) {
        for (const user of affected(uri)) if (project.isOpen(user)) all.add(user);
        project.touched(uri);
      }
      project.lookAgain();
      for (const open of project.openFiles()) if (!project.isKnown(open)) all.add(open);
      tell(all);
    }),
  );
}

// --- what needs the client to be ready ---

function afterwards(session: Session): void {
  const { connection, project, client } = session;
  if (client.workspace?.workspaceFolders) {
    connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
      const gone = new Set(removed.map(folder => URI.parse(folder.uri).toString()));
      const kept = project.workspaceFolders().filter(folder => !gone.has(folder.toString()));
      project.setFolders([...kept, ...added.map(folder => URI.parse(folder.uri))]);
      project.lookAgain();
      for (const listen of session.onChange) listen(new Set(project.openFiles()));
    });
  }
  const logged = (error: unknown) => connection.console.warn(String(error));
  if (client.workspace?.didChangeWatchedFiles?.dynamicRegistration) {
    const watchers = [{ globPattern: '**/*.broom' }];
    void connection.client
      .register({ method: 'workspace/didChangeWatchedFiles' } as never, { watchers } as never)
      .catch(logged);
  }
  if (client.workspace?.didChangeConfiguration?.dynamicRegistration) {
    void connection.client
      .register({ method: 'workspace/didChangeConfiguration' } as never, { section: SERVER_NAME } as never)
      .catch(logged);
  }
  const take = (given: unknown) => {
    const { settings, problems } = readSettings(given);
    for (const problem of problems) connection.console.warn(`Setting not used. ${problem}`);
    if (JSON.stringify(settings) === JSON.stringify(session.settings)) return;
    session.settings = settings;
    project.setAsOf(settings.asOf ?? undefined);
    for (const listen of session.onSettings) listen();
  };
  const ask = () => void connection.workspace.getConfiguration(SERVER_NAME).then(take, logged);
  connection.onDidChangeConfiguration(({ settings }) => {
    const sent = (settings as Record<string, unknown> | null | undefined)?.[SERVER_NAME];
    if (client.workspace?.configuration) ask();
    else take(sent ?? defaultSettings);
  });
  if (client.workspace?.configuration) ask();
}
