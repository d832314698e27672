/**
 * One fresh window: what it takes to activate the extension, and by what it is activated. Whoever opens the windows
 * reads the line that is printed, and judges several of them together. `how.txt` in the open folder says what is looked at.
 */
import { assert } from 'chai';
import * as vscode from 'vscode';

const ID = 'broomline.broomline';
const TENDER = 'tern-sands/tender-2031.broom';

/** The mark of the line, before its JSON. */
export const ACTIVATION = 'BROOMLINE-ACTIVATION';

interface Api {
  readonly ready: Promise<void>;
}

export async function run(): Promise<void> {
  const extension = vscode.extensions.getExtension<Api>(ID);
  assert.isDefined(extension, 'the extension is installed');
  const folder = vscode.workspace.workspaceFolders![0]!.uri;
  const how = new TextDecoder().decode(await vscode.workspace.fs.readFile(vscode.Uri.joinPath(folder, 'how.txt')));
  // A window in which people write other things: the extension stays away.
  await vscode.window.showTextDocument(vscode.Uri.joinPath(folder, 'notes.md'));
  await settled();
  const idle = !extension!.isActive;
  if (how === 'by the language') {
    await vscode.window.showTextDocument(vscode.Uri.joinPath(folder, TENDER));
    const end = Date.now() + 20_000;
    while (!extension!.isActive && Date.now() < end) await new Promise(resolve => setTimeout(resolve, 20));
    console.log(`${ACTIVATION} ${JSON.stringify({ how, idle, active: extension!.isActive })}`);
    return;
  }
  const pace = work();
  const [began, cpuBefore] = [performance.now(), processorTime()];
  const api = await extension!.activate();
  const [wall, processor] = [performance.now() - began, processorTime() - cpuBefore];
  await api.ready;
  const ready = performance.now() - began;
  console.log(
    `${ACTIVATION} ${JSON.stringify({ how, idle, active: extension!.isActive, wall, processor, pace, ready })}`,
  );
}

/** The window has started, and has nothing to do any more: what it does by itself would count as ours otherwise. */
async function settled(): Promise<void> {
  await new Promise(resolve => setTimeout(resolve, 1_500));
}

/**
 * A fixed piece of work of the kind that starting is, text and objects: how long it takes tells how quick the machine is
 * at the moment, ms.
 */
function work(): number {
  const times = [1, 2, 3].map(() => {
    const began = performance.now();
    const rows = Array.from({ length: 6000 }, (_, i) => ({
      name: `row ${(i * 7919) % 6007}`,
      values: [i, i / 3, String(i)],
    }));
    const again = JSON.parse(JSON.stringify(rows)) as typeof rows;
    const { length } = again
      .map(each => each.name)
      .sort()
      .join('');
    assert.isAbove(length, 6000);
    return performance.now() - began;
  });
  return Math.min(...times);
}

/** Milliseconds that this process has computed, where it can tell: other programs on the machine do not count. */
function processorTime(): number {
  const { process } = globalThis as { process?: { cpuUsage?: () => { user: number; system: number } } };
  const used = process?.cpuUsage?.();
  return used === undefined ? Number.NaN : (used.user + used.system) / 1000;
}
