/** The running language server, as the rest of the extension sees it: typed requests, checked on this side too. */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { z } from 'zod';
import { ImprovedNotification } from '../../server/protocol.ts';

interface Message<P extends z.ZodType, R extends z.ZodType> {
  readonly method: string;
  readonly params: P;
  readonly result: R;
}

export class Server {
  readonly client: BaseLanguageClient;
  readonly log: vscode.LogOutputChannel;
  /** Fires with the address of a file whose schedule has become better, or is final. */
  readonly onImproved: vscode.Event<string>;

  constructor(client: BaseLanguageClient, log: vscode.LogOutputChannel) {
    this.client = client;
    this.log = log;
    const improved = new vscode.EventEmitter<string>();
    this.onImproved = improved.event;
    client.registerFeature({
      // The server tells only those who said that they know what is told.
      fillClientCapabilities: capabilities => {
        capabilities.experimental = { ...capabilities.experimental, broomline: {} };
      },
      initialize: () => {},
      getState: () => ({ kind: 'static' }),
      clear: () => {},
    });
    client.onNotification(ImprovedNotification.method, (params: unknown) => {
      const told = ImprovedNotification.params.safeParse(params);
      if (told.success) improved.fire(told.data.uri);
    });
  }

  /** Starts; fulfilled once the server answers. That it can't be started is said once, with a way to the log. */
  async start(): Promise<void> {
    try {
      await this.client.start();
    } catch (error) {
      this.log.error(`The language server did not start: ${said(error)}`);
      const show = vscode.l10n.t('Show the Log');
      void vscode.window
        .showErrorMessage(vscode.l10n.t('The language server of Broomline did not start.'), show)
        .then(chosen => (chosen === show ? this.log.show() : undefined));
    }
  }

  async restart(): Promise<void> {
    this.log.info('The language server is started again.');
    try {
      await this.client.stop();
    } catch (error) {
      this.log.error(`The language server could not be ended: ${said(error)}`);
    }
    await this.start();
  }

  async stop(): Promise<void> {
    try {
      await this.client.dispose();
    } catch (error) {
      // The editor ends anyway.
      this.log.warn(said(error));
    }
  }

  get isRunning(): boolean {
    return this.client.isRunning();
  }

  /**
   * Asks the server. Fails with the server's own sentence where it refuses, and where an answer is not what the protocol
   * says, which is a defect.
   */
  async ask<P extends z.ZodType, R extends z.ZodType>(
    message: Message<P, R>,
    params: z.input<P>,
    token?: vscode.CancellationToken,
  ): Promise<z.output<R>> {
    const answer = await this.client.sendRequest<unknown>(message.method, params, token);
    const checked = message.result.safeParse(answer);
    if (!checked.success) throw new Error(`${message.method}: ${z.prettifyError(checked.error)}`);
    return checked.data;
  }
}

/** What an error says, for the log or a person. */
export function said(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
