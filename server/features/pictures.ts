/** What the preview draws: the pictures' data of the text as it is, and as it would be after an edit that is still tried. */
import { type FileSystemNode, type FileSystemProvider, URI } from 'langium';
import { ProtocolRequestType } from 'vscode-languageserver';
import type { z } from 'zod';
import { type Analysis, analyse } from '../../language/analysis/analyse.ts';
import { createWorkspace, problemsOf, type Workspace } from '../../language/grammar/services.ts';
import { type PictureData, pictureData } from '../../language/pictures/data.ts';
import { nameRules } from '../../language/vocabulary/names.ts';
import { asFileSystem } from '../environment.ts';
import { type BroomDocument, keyOf, type Project } from '../project/project.ts';
import { PictureRequest, WhatIfRequest } from '../protocol.ts';
import { type Feature, refused } from '../session.ts';

type PictureAnswer = z.infer<typeof PictureRequest.result>;
type WhatIfParams = z.infer<typeof WhatIfRequest.params>;
type WhatIfAnswer = z.infer<typeof WhatIfRequest.result>;

export const pictures: Feature = {
  capabilities: () => ({}),
  register: session => {
    const { project } = session;
    const versionOf = (address: string) => project.bufferOf(address)?.version ?? null;
    const pictureType = new ProtocolRequestType<{ uri: string }, PictureAnswer, never, void, void>(
      PictureRequest.method,
    );
    session.on(pictureType, PictureRequest.params, async ({ uri }, pace): Promise<PictureAnswer> => {
      const { analysis, document, address } = await session.about(uri, pace.token);
      if (analysis === undefined) throw refused(session.t('This file could not be analysed; its diagnostics say why.'));
      const picture = picturedWith(analysis, key => project.documentOf(key));
      return { uri: address, version: versionOf(address), picture, broken: brokenIn(document) };
    });

    const trial = new Trial(project, session.environment.clock);
    const whatIfType = new ProtocolRequestType<WhatIfParams, WhatIfAnswer, never, void, void>(WhatIfRequest.method);
    session.on(whatIfType, WhatIfRequest.params, async ({ uri, edits }, pace): Promise<WhatIfAnswer> => {
      const { document, address } = await session.about(uri, pace.token, { textOnly: true });
      const version = versionOf(address);
      const picture = await trial.picture(document, edits, pace.step);
      return { uri: address, version, picture };
    });
  },
};

function picturedWith(analysis: Analysis, documentOf: (key: string) => BroomDocument | undefined): PictureData {
  return pictureData(analysis, {
    lineOf: ({ file, start }) => {
      const line = documentOf(file)?.textDocument.positionAt(start).line;
      return line === undefined ? undefined : line + 1;
    },
  });
}

/** The first place where the text itself can't be read. */
function brokenIn(document: BroomDocument): PictureAnswer['broken'] {
  const problem = problemsOf(document).find(each => each.severity === 'error');
  if (problem === undefined) return null;
  const { message, offset, end } = problem;
  const line = document.textDocument.positionAt(offset).line + 1;
  return { message, line, place: { file: document.uri.toString(), start: offset, end } };
}

/**
 * A second workspace over the texts that the project has, in which edits are tried. It is kept while something is dragged,
 * so that of each try only the edited file is read again.
 */
class Trial {
  private readonly project: Project;
  private readonly clock: () => number;
  private readonly texts = new Map<string, string>();
  private workspace: Workspace | undefined;
  private edited: readonly string[] = [];
  private main = '';
  private revision = -1;
  /** One try at a time: each changes the workspace. */
  private last: Promise<unknown> = Promise.resolve();

  constructor(project: Project, clock: () => number) {
    this.project = project;
    this.clock = clock;
  }

  picture(main: BroomDocument, edits: WhatIfParams['edits'], step: () => Promise<void>): Promise<PictureData> {
    const next = this.last.then(async () => {
      // Whoever drags asks faster than is answered; what is no longer wanted is given up here.
      await step();
      return this.tried(main, edits);
    });
    this.last = next.catch(() => undefined);
    return next;
  }

  private async tried(main: BroomDocument, edits: WhatIfParams['edits']): Promise<PictureData> {
    const key = main.uri.toString();
    const workspace = await this.ready(key);
    const changed = new Set([...this.edited, ...edits.map(each => keyOf(each.place.file))]);
    for (const each of changed) this.texts.set(each, this.project.documentOf(each)?.textDocument.getText() ?? '');
    for (const { place, text } of edits.toSorted((a, b) => b.place.start - a.place.start)) {
      const before = this.texts.get(keyOf(place.file)) ?? '';
      this.texts.set(keyOf(place.file), before.slice(0, place.start) + text + before.slice(place.end));
    }
    this.edited = [...new Set(edits.map(each => keyOf(each.place.file)))];
    await workspace.refresh([...changed].map(each => URI.parse(each)));
    const documentOf = (file: string) => workspace.documents().find(each => each.uri.toString() === file);
    const document = documentOf(key);
    if (document === undefined) throw refused('The file can not be read any more.');
    const { asOf } = this.project;
    const began = this.clock();
    // Whoever drags sees the first schedule at once; the best one is looked for after the drop.
    const enough = () => this.clock() - began > LONGEST;
    return picturedWith(analyse(document, workspace, { enough, ...(asOf !== undefined && { asOf }) }), documentOf);
  }

  /** The workspace with the project's texts as they are now. */
  private async ready(main: string): Promise<Workspace> {
    const { project } = this;
    if (this.workspace !== undefined && this.revision === project.revision && this.main === main) return this.workspace;
    this.texts.clear();
    for (const each of project.loadedDocuments()) this.texts.set(each.uri.toString(), each.textDocument.getText());
    const workspace = createWorkspace(overTexts(this.texts), [URI.parse(main).with({ path: '/' })], {
      topLevelKinds: nameRules.topLevelKinds,
      rules: nameRules,
    });
    await workspace.open([main]);
    this.workspace = workspace;
    this.revision = project.revision;
    this.main = main;
    this.edited = [];
    return workspace;
  }
}

/** Milliseconds after which a try settles for the schedule it has. */
const LONGEST = 150;

/** Only texts that the project has read already are here, so nothing outside its folders can be reached. */
function overTexts(texts: ReadonlyMap<string, string>): FileSystemProvider {
  return asFileSystem({
    readFile: async uri => {
      const text = texts.get(uri.toString());
      if (text === undefined) throw new Error('not read by the project');
      return text;
    },
    readDirectory: async (folder): Promise<readonly FileSystemNode[]> => {
      const base = `${folder.toString().replace(/\/$/, '')}/`;
      const names = [...texts.keys()].filter(key => key.startsWith(base)).map(key => key.slice(base.length).split('/'));
      const isFile = new Map(names.map(([name = '', ...more]) => [name, more.length === 0]));
      return [...isFile].map(([name, file]) => ({ isFile: file, isDirectory: !file, uri: URI.parse(base + name) }));
    },
    exists: async uri => texts.has(uri.toString()),
  });
}
