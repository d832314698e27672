/** The way to the host: the one the editor gives to a webview. */
import type { Kept, ToHost, ToPreview } from './messages.ts';

export interface Channel {
  readonly post: (message: ToHost) => void;
  readonly listen: (hear: (message: ToPreview) => void) => () => void;
  readonly kept: () => Kept;
  readonly keep: (kept: Kept) => void;
}

interface EditorApi {
  postMessage(message: unknown): void;
  getState(): unknown;
  setState(state: unknown): void;
}

declare const acquireVsCodeApi: () => EditorApi;

const known: readonly string[] = ['show', 'broken', 'computing', 'fault', 'cursor', 'whatIf', 'export'];

export function editorChannel(): Channel {
  const api = acquireVsCodeApi();
  return {
    post: message => api.postMessage(message),
    listen: hear => {
      const heard = ({ data }: MessageEvent): void => {
        // Other scripts of the page (the editor's own) send messages too.
        if (typeof data === 'object' && data !== null && known.includes((data as { type?: string }).type ?? '')) {
          hear(data as ToPreview);
        }
      };
      window.addEventListener('message', heard);
      return () => window.removeEventListener('message', heard);
    },
    kept: () => {
      const state = api.getState();
      return typeof state === 'object' && state !== null ? (state as Kept) : {};
    },
    keep: kept => api.setState(kept),
  };
}
