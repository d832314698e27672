/** Files that are moved or renamed take the `use` lines along: those that mean them, and those in them. */
import { GrammarUtils, URI } from 'langium';
import {
  DidCreateFilesNotification,
  DidDeleteFilesNotification,
  DidRenameFilesNotification,
  WillRenameFilesRequest,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { z } from 'zod';
import { usesOf } from '../../language/grammar/imports.ts';
import { loadFilesWith, workspaceFiles } from '../project/files.ts';
import type { Feature, Pace, Session } from '../session.ts';
import { relativePath } from './completion.ts';
import { type Change, workspaceEdit } from './edits.ts';

const filters = [
  { scheme: 'file', pattern: { glob: '**/*.broom', matches: 'file' as const } },
  { pattern: { glob: '**', matches: 'folder' as const } },
  { pattern: { glob: '**/*.broom', matches: 'file' as const } },
];

export const fileRename: Feature = {
  capabilities: client =>
    client.workspace?.fileOperations
      ? {
          workspace: {
            fileOperations: {
              willRename: { filters },
              didRename: { filters },
              didCreate: { filters },
              didDelete: { filters },
            },
          },
        }
      : { workspace: { fileOperations: { willRename: { filters }, didRename: { filters } } } },
  register: session => {
    const schema = z.looseObject({
      files: z.array(z.looseObject({ oldUri: z.string().min(1), newUri: z.string().min(1) })),
    });
    session.on(WillRenameFilesRequest.type, schema, async ({ files }, pace) => edits(session, files, pace));
    const touch = (addresses: readonly string[]) => {
      for (const address of addresses) session.project.touched(address);
      session.project.lookAgain();
      for (const listen of session.onChange) listen(new Set(session.project.openFiles()));
    };
    session.connection.onNotification(DidRenameFilesNotification.type, ({ files }) =>
      touch(files.flatMap(({ oldUri, newUri }) => [oldUri, newUri])),
    );
    session.connection.onNotification(DidCreateFilesNotification.type, ({ files }) =>
      touch(files.map(({ uri }) => uri)),
    );
    session.connection.onNotification(DidDeleteFilesNotification.type, ({ files }) =>
      touch(files.map(({ uri }) => uri)),
    );
  },
};

interface Move {
  readonly oldUri: string;
  readonly newUri: string;
}

/** Some clients end the address of a folder with a slash. */
function withoutSlash(uri: URI): URI {
  return uri.with({ path: uri.path.replace(/\/+$/, '') });
}

async function edits(session: Session, moves: readonly Move[], pace: Pace): Promise<WorkspaceEdit | null> {
  const { project } = session;
  const files = await workspaceFiles(session, pace);
  /** Every file that moves, folders spread out into their files. */
  const moved = new Map<string, URI>();
  for (const { oldUri, newUri } of moves) {
    const [from, to] = [withoutSlash(URI.parse(oldUri)), withoutSlash(URI.parse(newUri))];
    for (const address of [from.toString(), ...files]) {
      const { path } = URI.parse(address);
      if (path === from.path) moved.set(address, to);
      else if (path.startsWith(`${from.path}/`))
        moved.set(address, to.with({ path: to.path + path.slice(from.path.length) }));
    }
  }
  const names = [...moved.keys()].map(address => decodeURIComponent(URI.parse(address).path.split('/').at(-1)!));
  await loadFilesWith(session, names, pace);
  for (const address of moved.keys()) await project.ready(address);
  const changes: Change[] = [];
  for (const document of project.loadedDocuments()) {
    const home = moved.get(document.uri.toString()) ?? document.uri;
    for (const use of usesOf(document)) {
      const target = project.imports.pathOf(use);
      const cst = GrammarUtils.findNodeForProperty(use.$cstNode, 'path');
      if (target?.state !== 'ok' || cst === undefined) continue;
      const now = moved.get(target.uri.toString()) ?? target.uri;
      if (now === target.uri && home === document.uri) continue;
      const path = relativePath(home.path.split('/').slice(0, -1), now.path.split('/'));
      if (path !== use.path) changes.push({ document, start: cst.offset, end: cst.end, text: `"${path}"` });
    }
  }
  return changes.length > 0 ? workspaceEdit(session, changes) : null;
}
