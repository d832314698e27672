/** New files: a job from a few answers, a method, a library of plant. Each is one edit of the workspace, and can be undone. */
import * as vscode from 'vscode';
import { chooseFolder, exists, readSamples } from './sample.ts';
import {
  endsFrom,
  type Family,
  fileFrom,
  type JobAnswers,
  jobText,
  METHODS,
  methodText,
  nameFrom,
  plantText,
} from './templates.ts';

export function registerNewFiles(context: vscode.ExtensionContext): void {
  context.subscriptions.push(
    vscode.commands.registerCommand('broomline.newJob', async (given?: Partial<JobAnswers>) => {
      const folder = await targetFolder();
      const answers = folder && (await askForJob(given ?? {}));
      if (folder && answers) await writeJob(context, folder, answers);
    }),
    vscode.commands.registerCommand('broomline.newMethod', async (given?: string) => {
      const folder = await targetFolder();
      const name = folder && (await askForName(vscode.l10n.t('Name of the method'), 'BroomTwice', given));
      if (folder && name) await writeFiles(folder, { [fileFrom(name)]: methodText(name) });
    }),
    vscode.commands.registerCommand('broomline.newPlantLibrary', async (given?: string) => {
      const folder = await targetFolder();
      const name = folder && (await askForName(vscode.l10n.t('Name of the fleet'), 'WorksDepartment', given));
      if (folder && name) await writeFiles(folder, { [fileFrom(name)]: plantText(today()) });
    }),
  );
}

/** Beside the spec that is open, otherwise a folder of the workspace, otherwise one that is asked for. */
async function targetFolder(): Promise<vscode.Uri | undefined> {
  const active = vscode.window.activeTextEditor?.document;
  if (active?.languageId === 'broomline' && vscode.workspace.getWorkspaceFolder(active.uri))
    return vscode.Uri.joinPath(active.uri, '..');
  return chooseFolder();
}

// --- questions ---

async function askForJob(given: Partial<JobAnswers>): Promise<JobAnswers | undefined> {
  const steps = 4;
  const title = (step: number) => vscode.l10n.t('New job, question {0} of {1}', step, steps);
  const family = given.family ?? (await askForFamily(title(1)));
  if (family === undefined) return undefined;
  const ends =
    given.ends ??
    (await ask(title(2), vscode.l10n.t('Designations of the runway, such as 04/22'), '04/22', endsFrom, () =>
      vscode.l10n.t('Two numbers from 01 to 36 that differ by 18, such as 04/22 or 09L/27R.'),
    ));
  if (ends === undefined) return undefined;
  const size =
    given.length !== undefined && given.width !== undefined
      ? { length: given.length, width: given.width }
      : await ask(title(3), vscode.l10n.t('Length and width of the runway in metres'), '2500 x 45', sizeFrom, () =>
          vscode.l10n.t('Two lengths in metres, such as 2500 x 45: 800 m or longer, and 18 to 80 m wide.'),
        );
  if (size === undefined) return undefined;
  const from =
    given.from ??
    (await ask(title(4), vscode.l10n.t('First night of the closures'), today(), dateFrom, () =>
      vscode.l10n.t('A date, such as 2031-05-12.'),
    ));
  if (from === undefined) return undefined;
  return { name: given.name ?? nameFrom(`Runway${ends[0]}`), family, ends, ...size, from };
}

async function askForFamily(title: string): Promise<Family | undefined> {
  const families: readonly (vscode.QuickPickItem & { readonly family: Family })[] = [
    {
      label: vscode.l10n.t('Product and brooms'),
      detail: vscode.l10n.t('Spray, soak, broom, rinse, pick up.'),
      family: 'brooms',
    },
    {
      label: vscode.l10n.t('Low-pressure water'),
      detail: vscode.l10n.t('Water jets under 345 bar; no product.'),
      family: 'water',
    },
    {
      label: vscode.l10n.t('Product, then low-pressure water'),
      detail: vscode.l10n.t('The product loosens the rubber, the jet takes it off.'),
      family: 'both',
    },
  ];
  const placeHolder = vscode.l10n.t('How is the rubber removed?');
  return (await vscode.window.showQuickPick(families, { title, placeHolder }))?.family;
}

/** Asks until the answer can be read. */
async function ask<T>(
  title: string,
  prompt: string,
  value: string,
  read: (text: string) => T | undefined,
  trouble: () => string,
): Promise<T | undefined> {
  const answer = await vscode.window.showInputBox({
    title,
    prompt,
    value,
    ignoreFocusOut: true,
    validateInput: text => (read(text) === undefined ? trouble() : undefined),
  });
  return answer === undefined ? undefined : read(answer);
}

function askForName(prompt: string, value: string, given: string | undefined): Promise<string | undefined> {
  if (given !== undefined) return Promise.resolve(nameFrom(given));
  return ask(
    prompt,
    prompt,
    value,
    text => (/\p{L}/u.test(text) ? nameFrom(text) : undefined),
    () => vscode.l10n.t('A name has at least one letter.'),
  );
}

function sizeFrom(text: string): { length: number; width: number } | undefined {
  const match = /^\s*(\d{3,4})\s*m?\s*[x×*by, ]+\s*(\d{2})\s*m?\s*$/i.exec(text);
  if (!match) return undefined;
  const [length, width] = [Number(match[1]), Number(match[2])];
  return length >= 800 && width >= 18 && width <= 80 ? { length, width } : undefined;
}

function dateFrom(text: string): string | undefined {
  const date = text.trim();
  const time = /^\d{4}-\d{2}-\d{2}$/.test(date) ? Date.parse(`${date}T00:00:00Z`) : Number.NaN;
  // A day that the month does not have is moved on by the parser.
  return Number.isNaN(time) || new Date(time).toISOString().slice(0, 10) !== date ? undefined : date;
}

function today(): string {
  return new Date().toISOString().slice(0, 10);
}

// --- files ---

/** The job, and beside it those of the libraries it needs that are not there yet. */
async function writeJob(context: vscode.ExtensionContext, folder: vscode.Uri, answers: JobAnswers): Promise<void> {
  const samples = await readSamples(context);
  const method = METHODS[answers.family].file;
  const plant = 'library/district-plant.broom';
  const products = 'library/products.broom';
  const needed = answers.family === 'water' ? [plant, method] : [plant, products, method];
  const missing: Record<string, string> = {};
  for (const path of needed)
    if (!(await exists(vscode.Uri.joinPath(folder, path)))) missing[path] = samples[path] ?? '';
  const text = jobText(answers, { plant, products, method });
  await writeFiles(folder, { [fileFrom(answers.name)]: text, ...missing });
}

/** Writes new files as one edit, and opens the first. Nothing that exists is touched: the first gets a free name. */
async function writeFiles(folder: vscode.Uri, files: Readonly<Record<string, string>>): Promise<void> {
  const edit = new vscode.WorkspaceEdit();
  let first: vscode.Uri | undefined;
  for (const [path, text] of Object.entries(files)) {
    const uri = first === undefined ? await freeName(folder, path) : vscode.Uri.joinPath(folder, path);
    first ??= uri;
    edit.createFile(uri, { contents: new TextEncoder().encode(text) });
  }
  if (first === undefined) return;
  if (!(await vscode.workspace.applyEdit(edit))) {
    void vscode.window.showErrorMessage(vscode.l10n.t('The files could not be written into {0}.', folder.path));
    return;
  }
  await vscode.window.showTextDocument(first, { preview: false });
}

async function freeName(folder: vscode.Uri, path: string): Promise<vscode.Uri> {
  for (let number = 1; ; number += 1) {
    const uri = vscode.Uri.joinPath(folder, number === 1 ? path : path.replace(/\.broom$/, `-${number}.broom`));
    if (!(await exists(uri))) return uri;
  }
}
