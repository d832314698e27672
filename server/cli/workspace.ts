/** Files on disk, opened and analysed. One workspace a root, so a library that many jobs use is read once. */
import { pathToFileURL } from 'node:url';
import { URI } from 'langium';
import { NodeFileSystemProvider } from 'langium/node';
import { type AnalyseOptions, type Analysis, analyse } from '../../language/analysis/analyse.ts';
import { createWorkspace, type Workspace } from '../../language/grammar/services.ts';
import { nameRules } from '../../language/vocabulary/names.ts';
import { type Entry, readText } from './files.ts';

export interface Analysed extends Analysis {
  /** Text of a file that was read for the job, undefined for any other. */
  readonly textOf: (file: string) => string | undefined;
}

/** Opens files and what they bring in, and analyses each. A file that vanished meanwhile is left out. */
export async function analyseFiles(
  entries: readonly Entry[],
  cwd: string,
  options: AnalyseOptions,
): Promise<readonly Analysed[]> {
  const workspaces = new Map<string, Workspace>();
  const analysed: Analysed[] = [];
  for (const { root, address } of entries) {
    const workspace = workspaces.get(root) ?? openRoot(root, cwd);
    workspaces.set(root, workspace);
    const documents = await workspace.open([address]);
    const document = documents.find(each => each.uri.toString() === URI.parse(address).toString());
    if (document === undefined) continue;
    analysed.push({
      ...analyse(document, workspace, options),
      textOf: file => workspace.shared.workspace.LangiumDocuments.getDocument(URI.parse(file))?.textDocument.getText(),
    });
  }
  return analysed;
}

function openRoot(root: string, cwd: string): Workspace {
  return createWorkspace(new WithinRoot(root, cwd), [URI.parse(pathToFileURL(root).href)], {
    topLevelKinds: nameRules.topLevelKinds,
    rules: nameRules,
  });
}

/** Node's files, read by the rules of the command line: inside the root, UTF-8, of a sensible size. */
class WithinRoot extends NodeFileSystemProvider {
  private readonly root: string;
  private readonly cwd: string;

  constructor(root: string, cwd: string) {
    super();
    this.root = root;
    this.cwd = cwd;
  }

  override async readFile(uri: URI): Promise<string> {
    return this.readFileSync(uri);
  }

  override readFileSync(uri: URI): string {
    const text = readText(uri.fsPath, this.root, this.cwd);
    if (typeof text === 'string') return text;
    throw new Error(text.trouble);
  }
}
