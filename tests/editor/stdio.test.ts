/** The server as it ships: over stdin and stdout, over the editor's own channel (IPC), and in a browser's worker. */
import { type ChildProcess, fork, spawn } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { MessageChannel, type MessagePort, Worker } from 'node:worker_threads';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  AbstractMessageReader,
  AbstractMessageWriter,
  createProtocolConnection,
  type DataCallback,
  type Disposable,
  type Hover,
  IPCMessageReader,
  IPCMessageWriter,
  type MarkupContent,
  type Message,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver-protocol/node';
import { type Built, buildServer, copyOfExamples } from './built.ts';
import { type Client, clientOf, FULL } from './client.ts';
import { FIRST, TENDER, WRONG } from './examples.ts';

let server: Built;
let work: Built;
beforeAll(() => {
  server = buildServer();
  work = copyOfExamples();
}, 120_000);
afterAll(() => {
  server.remove();
  work.remove();
});

async function connect(connection: ProtocolConnection): Promise<Client> {
  const root = pathToFileURL(work.folder).href;
  return clientOf(connection, { files: new Map(), running: {}, reads: [], root, options: { capabilities: FULL } });
}

const read = (name: string) => readFileSync(join(work.folder, name), 'utf8');

async function everydayWork(client: Client): Promise<void> {
  client.open(TENDER, read(TENDER));
  client.open(WRONG, read(WRONG));
  expect((await client.diagnostics(WRONG)).length).toBeGreaterThan(30);
  expect((await client.diagnostics(TENDER)).filter(each => each.severity === 1)).toEqual([]);
  const hover = await client.request<Hover>('textDocument/hover', client.at(TENDER, 'require North.pro|duct'));
  expect((hover.contents as MarkupContent).value).toContain('North.product');
  await expect(
    client.request('textDocument/hover', {
      textDocument: { uri: 'file:///nowhere.broom' },
      position: { line: 0, character: 0 },
    }),
  ).rejects.toMatchObject({ code: -32602 });
  await expect(client.request('textDocument/nothing', {})).rejects.toMatchObject({ code: -32601 });
}

const ended = (child: ChildProcess) => new Promise<number | null>(resolve => child.once('exit', resolve));

describe('on Node', () => {
  test.each([
    ['broomline serve --stdio', ['broomline.mjs', 'serve', '--stdio']],
    ['server.cjs --stdio', ['server.cjs', '--stdio']],
  ])('%s does its everyday work and ends when told', async (_, [script, ...args]) => {
    const child = spawn(process.execPath, [join(server.folder, script!), ...args], { stdio: ['pipe', 'pipe', 'pipe'] });
    let complained = '';
    child.stderr.on('data', text => {
      complained += String(text);
    });
    const done = ended(child);
    const connection = createProtocolConnection(
      new StreamMessageReader(child.stdout),
      new StreamMessageWriter(child.stdin),
    );
    const client = await connect(connection);
    await everydayWork(client);
    await connection.sendRequest('shutdown');
    await connection.sendNotification('exit');
    expect(await done).toBe(0);
    expect(complained).toBe('');
  });

  test('bytes that are no message do not end it', async () => {
    const child = spawn(process.execPath, [join(server.folder, 'server.cjs'), '--stdio'], {
      stdio: ['pipe', 'pipe', 'ignore'],
    });
    const done = ended(child);
    child.stdin.write('Content-Length: 9\r\n\r\nno json !');
    child.stdin.write('Content-Length: 15\r\n\r\n{"jsonrpc":"2"}');
    const connection = createProtocolConnection(
      new StreamMessageReader(child.stdout),
      new StreamMessageWriter(child.stdin),
    );
    const client = await connect(connection);
    client.open(FIRST, read(FIRST));
    expect(await client.request('textDocument/hover', client.at(FIRST, 'work Rem|oval'))).not.toBeNull();
    await connection.sendRequest('shutdown');
    await connection.sendNotification('exit');
    await done;
  });

  test('over IPC, as VS Code starts it', async () => {
    const child = fork(join(server.folder, 'server.cjs'), ['--node-ipc'], { silent: true });
    const done = ended(child);
    const connection = createProtocolConnection(new IPCMessageReader(child), new IPCMessageWriter(child));
    const client = await connect(connection);
    await everydayWork(client);
    await connection.sendRequest('shutdown');
    await connection.sendNotification('exit');
    expect(await done).toBe(0);
  });
});

describe('in a browser’s worker', () => {
  test('the bundle needs nothing of Node and does its work with files that the editor reads for it', async () => {
    const bundle = readFileSync(join(server.folder, 'worker.js'), 'utf8');
    expect(bundle).not.toMatch(/require\("(node:|fs|path|net|child_process)/);
    // The scope of a worker, and nothing else: no process, no require, no module.
    const scope = `
      const { workerData } = require('node:worker_threads');
      const vm = require('node:vm');
      const port = workerData.port;
      const self = { postMessage: m => port.postMessage(m), set onmessage(f) { port.on('message', data => f({ data })); },
        addEventListener: (type, f) => type === 'message' && port.on('message', data => f({ data })), performance, setTimeout, clearTimeout,
        TextDecoder, TextEncoder, URL, console, queueMicrotask, structuredClone, crypto, Intl, WebAssembly, AbortController };
      self.self = self;
      vm.runInNewContext(workerData.bundle, vm.createContext(self));
    `;
    const { port1, port2 } = new MessageChannel();
    const worker = new Worker(scope, { eval: true, workerData: { bundle, port: port2 }, transferList: [port2] });
    const failed = new Promise<never>((_, reject) => worker.once('error', reject));
    const connection = createProtocolConnection(new PortReader(port1), new PortWriter(port1));
    const asked: string[] = [];
    const path = (uri: string) => new URL(uri.replace('vscode-vfs://github/airfield', pathToFileURL(work.folder).href));
    connection.onRequest('broomline/readFile', ({ uri }: { uri: string }) => {
      asked.push(uri);
      return { text: readFileSync(path(uri), 'utf8') };
    });
    connection.onRequest('broomline/readDirectory', ({ uri }: { uri: string }) => ({
      entries: readdirSync(path(uri), { withFileTypes: true }).map(each => ({
        name: each.name,
        type: each.isDirectory() ? 'folder' : 'file',
      })),
    }));
    const about = {
      files: new Map(),
      running: {},
      reads: [],
      root: 'vscode-vfs://github/airfield',
      options: { capabilities: FULL },
    };
    await Promise.race([failed, clientOf(connection, about).then(everydayWork)]);
    expect(asked.some(uri => uri.endsWith('district-plant.broom'))).toBe(true);
    await worker.terminate();
  });
});

/** Messages over a port, as between a page and its worker. */
class PortReader extends AbstractMessageReader {
  private readonly port: MessagePort;

  constructor(port: MessagePort) {
    super();
    this.port = port;
  }

  listen(callback: DataCallback): Disposable {
    this.port.on('message', callback);
    return { dispose: () => this.port.off('message', callback) };
  }
}

class PortWriter extends AbstractMessageWriter {
  private readonly port: MessagePort;

  constructor(port: MessagePort) {
    super();
    this.port = port;
  }

  async write(message: Message): Promise<void> {
    this.port.postMessage(message);
  }

  end(): void {}
}
