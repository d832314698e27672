/**
 * One editor's session: the connection, the files, the settings, and the one way in which requests are answered. A
 * request that was cancelled, that makes no sense or that is about a file nobody can read is answered with an error;
 * nothing a client sends ends the server.
 */
import {
  type CancellationToken,
  type ClientCapabilities,
  type Connection,
  ErrorCodes,
  LSPErrorCodes,
  type Position,
  type ProtocolRequestType,
  ResponseError,
  type ServerCapabilities,
  type WorkDoneProgressReporter,
} from 'vscode-languageserver';
import { z } from 'zod';
import type { Analysis } from '../language/analysis/analyse.ts';
import { english, type Translate } from '../language/pictures/words.ts';
import type { System } from '../language/units/index.ts';
import type { Environment } from './environment.ts';
import { offsetIn } from './project/positions.ts';
import type { BroomDocument, Project } from './project/project.ts';
import type { Settings } from './settings.ts';

/** One feature of the editor. Adding one is its file and its line in features/index.ts. */
export interface Feature {
  readonly capabilities: (client: ClientCapabilities) => ServerCapabilities;
  readonly register: (session: Session) => void;
}

/** What a request about a file gets to work with. */
export interface About {
  readonly document: BroomDocument;
  /** Undefined only where the analysis itself failed, which is reported as a diagnostic. */
  readonly analysis: Analysis | undefined;
  readonly text: string;
  readonly address: string;
}

export interface AboutPosition extends About {
  readonly offset: number;
}

/** How a long answer sees whether it is still wanted, and lets others have their turn. */
export interface Pace {
  readonly token: CancellationToken;
  /** Gives way to other messages now and then; throws where the request was cancelled. */
  readonly step: () => Promise<void>;
  /** Tells the editor how far it is, where the editor wanted to know. */
  readonly progress: WorkDoneProgressReporter | undefined;
}

type DocumentRequest = { readonly textDocument: { readonly uri: string } };
type PositionRequest = DocumentRequest & { readonly position: Position };

const position = z.object({ line: z.int().min(0), character: z.int().min(0) });
const documentRequest = z.looseObject({ textDocument: z.looseObject({ uri: z.string().min(1) }) });
const positionRequest = documentRequest.extend({ position });
const rangeRequest = documentRequest.extend({ range: z.object({ start: position, end: position }) });

export class Session {
  readonly connection: Connection;
  readonly project: Project;
  readonly environment: Environment;
  readonly client: ClientCapabilities;
  settings: Settings;
  /** Words what the server itself writes; findings, and what is computed, stay English as the language is. */
  readonly t: Translate;
  /** The editor said that it is done. */
  ended = false;
  /** Called after settings changed. */
  readonly onSettings: (() => void)[] = [];
  /** Called with the addresses of open files whose findings may be others now. */
  readonly onChange: ((changed: ReadonlySet<string>) => void)[] = [];

  /** Called with the address of an open file when the search for its schedule has come to an end. */
  readonly onImproved: ((address: string) => void)[] = [];

  constructor(
    connection: Connection,
    project: Project,
    environment: Environment,
    client: ClientCapabilities,
    settings: Settings,
    t: Translate = english,
  ) {
    this.connection = connection;
    this.project = project;
    this.environment = environment;
    this.client = client;
    this.settings = settings;
    this.t = t;
  }

  /** Answers a request about a whole file, or about a range in it. */
  onDocument<P extends DocumentRequest, R, PR, E, O>(
    type: ProtocolRequestType<P, R, PR, E, O>,
    answer: (about: About, params: P, pace: Pace) => R | Promise<R>,
    options: Options = {},
  ): void {
    this.on(type, options.ranged ? rangeRequest : documentRequest, async (params, pace) => {
      const about = await this.about(params.textDocument.uri, pace.token, options);
      return this.ofOneText(about, () => answer(about, params, pace));
    });
  }

  /** Answers a request about a place in a file. */
  onPosition<P extends PositionRequest, R, PR, E, O>(
    type: ProtocolRequestType<P, R, PR, E, O>,
    answer: (about: AboutPosition, params: P, pace: Pace) => R | Promise<R>,
    options: Options = {},
  ): void {
    this.on(type, positionRequest, async (params, pace) => {
      const about = await this.about(params.textDocument.uri, pace.token, options);
      return this.ofOneText(about, () =>
        answer({ ...about, offset: offsetIn(about.document, params.position) }, params, pace),
      );
    });
  }

  /** An answer that took several turns is worth nothing where the text changed meanwhile: its places are those of before. */
  private async ofOneText<R>({ document }: About, answer: () => R | Promise<R>): Promise<R> {
    const isStale = () => this.project.documentOf(document.uri.toString()) !== document;
    try {
      const given = await answer();
      if (!isStale()) return given;
    } catch (error) {
      if (error instanceof ResponseError || !isStale()) throw error;
    }
    throw new ResponseError(LSPErrorCodes.ContentModified, 'The text changed while this was worked out. Ask again.');
  }

  /** Answers any request whose parameters fit the schema. */
  on<P, R, PR, E, O>(
    type: ProtocolRequestType<P, R, PR, E, O>,
    schema: z.ZodType,
    answer: (params: P, pace: Pace) => Promise<R>,
  ): void {
    const handler = async (params: P, token: CancellationToken, progress?: WorkDoneProgressReporter) => {
      try {
        const checked = schema.safeParse(params);
        if (!checked.success) throw invalid(`${type.method}: ${z.prettifyError(checked.error)}`);
        await this.environment.breathe();
        return await answer(params, this.pace(token, progress));
      } catch (error) {
        if (error instanceof ResponseError) return error;
        const said = error instanceof Error ? (error.stack ?? error.message) : String(error);
        this.connection.console.error(`${type.method} failed: ${said}`);
        return new ResponseError(
          ErrorCodes.InternalError,
          `${type.method} failed: ${error instanceof Error ? error.message : said}`,
        );
      }
    };
    this.connection.onRequest(type.method, handler as never);
  }

  /** The file in its newest text. Throws the error to answer with where there is none. */
  async about(address: string, token?: CancellationToken, options: Options = {}): Promise<About> {
    const document = await this.project.ready(address);
    if (token?.isCancellationRequested) throw cancelled();
    if (document === undefined) throw invalid(`${address} is not open, and can't be read.`);
    const analysis = options.textOnly ? undefined : this.project.analysisOf(document);
    return {
      document,
      analysis,
      text: document.textDocument.getText(),
      address: this.project.addressOf(document.uri.toString()),
    };
  }

  /** The system of units in which results are shown for a job. */
  system(analysis: Analysis | undefined): System {
    const { units } = this.settings;
    if (units === 'job') return analysis?.job.system ?? 'metric';
    return units === 'metric' ? 'metric' : 'us';
  }

  private pace(token: CancellationToken, progress: WorkDoneProgressReporter | undefined): Pace {
    const { clock, breathe } = this.environment;
    let last = clock();
    return {
      token,
      progress,
      step: async () => {
        if (clock() - last > SLICE) {
          await breathe();
          last = clock();
        }
        if (token.isCancellationRequested) throw cancelled();
      },
    };
  }
}

interface Options {
  /** The answer needs the syntax only; the analysis is not computed for it. */
  readonly textOnly?: boolean;
  /** The parameters hold a range. */
  readonly ranged?: boolean;
}

/** Milliseconds that long work takes before it gives way. */
const SLICE = 12;

export function cancelled(): ResponseError<void> {
  return new ResponseError(LSPErrorCodes.RequestCancelled, 'The request was cancelled.');
}

export function invalid(message: string): ResponseError<void> {
  return new ResponseError(ErrorCodes.InvalidParams, message);
}

/** The request makes sense, but can't be carried out, and a person has to know why. */
export function refused(message: string): ResponseError<void> {
  return new ResponseError(LSPErrorCodes.RequestFailed, message);
}
