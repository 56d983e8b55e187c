// Serves the editor as static files: its window, its extensions' host and all extensions run in the browser alone. The
// workspace is a folder of this machine, which the page sees through a small extension of the tests (`helper`) and the
// requests below /files. What else the page asks for are files, whose folders can't be listed, as on any static host.
import { createServer } from 'node:http';
import { createReadStream, promises as fs } from 'node:fs';
import { extname, join, normalize, sep } from 'node:path';
import { installEditor } from './install.mjs';
import { quiet } from './serve.mjs';

const types = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.mjs': 'text/javascript',
  '.cjs': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ttf': 'font/ttf',
  '.wasm': 'application/wasm',
};

/** The scheme of the workspace's file system. */
const scheme = 'washboard-test';

/**
 * @param {{ workspace: string, extension: string, helper: string, settings?: Record<string, unknown>, which?: 'newest' | 'oldest',
 *   say?: (line: string) => void }} options
 */
export async function serveWeb({ workspace, extension, helper, settings = {}, which, say }) {
  const { folder } = await installEditor(say, which);
  const reports = new Map();
  const roots = { static: join(folder, 'lib', 'vscode'), extension, helper };
  const server = createServer((request, response) => {
    answer(request, response).catch((error) => {
      response.writeHead(error.code === 'ENOENT' ? 404 : 500).end(String(error.message));
    });
  });

  async function answer(request, response) {
    const url = new URL(request.url, 'http://here');
    const [, top, ...rest] = decodeURIComponent(url.pathname).split('/');
    const path = rest.join('/');
    if (top === '') return send(response, 'text/html', await page(request.headers.host));
    if (top === 'files') return answerFiles(request, response, place(workspace, path), url.searchParams.get('what'));
    if (top === 'report') {
      reports.set(path, (await bodyOf(request)).toString());
      return send(response, 'text/plain', '');
    }
    if (top === 'mint-key') return send(response, 'application/octet-stream', Buffer.alloc(32));
    const root = roots[top];
    const file = root === undefined ? undefined : place(root, path);
    if (file === undefined || !(await fs.stat(file)).isFile()) return void response.writeHead(404).end();
    if (path === 'out/vs/code/browser/workbench/workbench.js')
      return send(response, types['.js'], await withoutServer(file));
    response.writeHead(200, { 'content-type': types[extname(file)] ?? 'application/octet-stream' });
    createReadStream(file).pipe(response);
  }

  /** The page, as the editor's own server fills it in. */
  async function page(host) {
    const at = (path) => ({ scheme: 'http', authority: host, path });
    const configuration = {
      folderUri: { scheme, authority: 'files', path: '/study' },
      additionalBuiltinExtensions: [at('/extension'), at('/helper')],
      configurationDefaults: { ...quiet, ...settings },
      callbackRoute: '/callback',
      webviewEndpoint: `http://${host}/static/out/vs/workbench/contrib/webview/browser/pre/`,
      userDataPath: '/',
      isEnabledCoderGettingStarted: false,
      isEnabledFileDownloads: true,
      isEnabledFileUploads: true,
    };
    const values = {
      WORKBENCH_WEB_CONFIGURATION: JSON.stringify(configuration).replaceAll('"', '&quot;'),
      WORKBENCH_WEB_BASE_URL: '/static',
      WORKBENCH_NLS_URL: '/static/out/nls.messages.js',
      WORKBENCH_NLS_FALLBACK_URL: '/static/out/nls.messages.js',
    };
    const html = await fs.readFile(join(roots.static, 'out/vs/code/browser/workbench/workbench.html'), 'utf8');
    return html.replace(/\{\{(\w+)\}\}/g, (_whole, name) => values[name] ?? '');
  }

  await new Promise((done) => server.listen(0, '127.0.0.1', done));
  return {
    url: `http://127.0.0.1:${server.address().port}/`,
    /** What the helper told under a name, as text; undefined until it did. */
    report: (name) => reports.get(name),
    stop: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}

/** What this editor's window takes for granted of a server behind it, and how it is where there is none. */
const alone = [
  ['remoteAuthority:location.host}', 'remoteAuthority:void 0}'],
  ['.with({scheme:J.vscodeRemote}),"User")', '.with({scheme:J.vscodeUserData}),"User")'],
];

/** The window's program, without a server. */
async function withoutServer(file) {
  let text = await fs.readFile(file, 'utf8');
  for (const [from, to] of alone) {
    if (!text.includes(from)) throw new Error(`the window of this editor is put together otherwise: no ${from}`);
    text = text.replace(from, () => to);
  }
  return text;
}

async function answerFiles(request, response, file, what) {
  if (request.method === 'PUT') {
    if (what === 'folder') await fs.mkdir(file, { recursive: true });
    else await fs.writeFile(file, await bodyOf(request));
    return send(response, 'text/plain', '');
  }
  if (what === 'list') {
    const entries = await fs.readdir(file, { withFileTypes: true });
    return sendJson(
      response,
      entries.map((entry) => [entry.name, entry.isDirectory() ? 2 : 1]),
    );
  }
  const { size, mtimeMs, ...found } = await fs.stat(file);
  if (what === 'stat') {
    const type = (await fs.stat(file)).isDirectory() ? 2 : 1;
    return sendJson(response, { type, size, mtime: Math.floor(mtimeMs), ctime: Math.floor(found.ctimeMs) });
  }
  return send(response, 'application/octet-stream', await fs.readFile(file));
}

/** A path below a folder, and none beside it. */
function place(root, path) {
  const file = normalize(join(root, path));
  if (file !== root && !file.startsWith(root + sep)) throw new Error(`${path} leads out of what is served`);
  return file;
}

const sendJson = (response, value) => send(response, 'application/json', JSON.stringify(value));
const send = (response, type, content) =>
  void response.writeHead(200, { 'content-type': type, 'cache-control': 'no-store' }).end(content);

async function bodyOf(request) {
  const parts = [];
  for await (const part of request) parts.push(part);
  return Buffer.concat(parts);
}
