// The second half of `npm start`: a real VS Code in the browser, on this machine only, with the extension and the examples
// open. Ends with Ctrl+C. Where the editor can't be had, it says why and is done: the rest of `npm start` has worked.
import { join } from 'node:path';
import { ensureWebEditor, freePort, serveWebEditor } from './editor.mjs';
import { buildExtension } from './extension.mjs';
import { root } from './setup.mjs';

const PORT = 3131;

console.log('\nPreparing the editor in the browser (once 60 MB from the registry; Ctrl+C ends it) …');
const { packages, trouble } = ensureWebEditor();
if (trouble) {
  console.log(`The editor could not be installed, so only the printout above is here. npm says: ${trouble}`);
  process.exit(0);
}
await buildExtension();
const { address } = await serveWebEditor({ packages, folder: join(root, 'examples'), port: await freePort(PORT) });
console.log(`
VS Code with Broomline and the examples: ${address}

  Open tern-sands/tender-2031.broom, then the preview with the button at the upper right. Change a number.
  What is changed there stays in the browser and is gone when the page is closed; the files on the disk stay as they are.
  Nothing leaves this machine. Ctrl+C ends it.`);
