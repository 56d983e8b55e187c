import type { Page } from 'playwright-core';

/** What a served editor says on every start and run, whatever extension is in it. */
const noise: readonly RegExp[] = [
  /404 \(Not Found\).*\/(favicon[\w-]*\.(ico|svg)|update\/check)/,
  /\[Service Worker\] registration/,
  /^A bad HTTP response code \(404\) was received when fetching the script/,
  /vsda(\.js|_bg\.wasm)/,
  /Could not locate the bindings file/,
  /build\/Release\/watchdog/,
  /native watchdog/i,
  /github.*auth|auth.*github/i,
  /Timed out waiting for authentication provider/,
  /net::ERR_(NAME_NOT_RESOLVED|INTERNET_DISCONNECTED|NETWORK_CHANGED|PROXY_CONNECTION_FAILED|CONNECTION_REFUSED|TUNNEL_CONNECTION_FAILED)/,
  // The editor stumbles now and then over its own view of a cell whose text has just been replaced.
  /onDidChangeTextModelContent[^]*pushEditOperations/,
  // It asks its host of the view of a cell that it has taken away meanwhile.
  /Error: unknown text editor: /,
  /extension gallery|marketplace|open-vsx/i,
  /mermaid-markdown-features/,
  // A page without scripts, in which the editor's own frame would like to run one.
  /Blocked script execution in '[^']*\/contrib\/webview\/browser\/pre\/index\.html/,
  // Its frame for a page that was closed while it loaded.
  /Found unexpected null[^]*hookupOnLoadHandlers/,
  // The editor gives its listeners a fixed time before a save, which a starved machine exceeds; nobody here listens.
  /Aborted onWillSave\w+-event after \d+ms/,
  // The editor's own leave-taking where the page is loaded anew.
  /\[lifecycle\] Long running operations during shutdown/,
  // What it had asked its host for when the page was loaded anew; a file that never came would be missed by what is drawn.
  /Unable to (read|write) file '[^']*' \(Canceled: Canceled\)/,
  /Webview\.loadLocalResource - Error using fileReader/,
  // Its log of the window that is left, whose store was closed before.
  /Unable to write file 'vscode-log:[^']*' \(Error: IndexedDB database '[\w-]+' is closed\.\)/,
  /Error: Throttler is disposed/,
];

/** Gathers the errors that the page, its frames and the extension host write to the console from now on. */
export function collectErrors(page: Page): readonly string[] {
  const errors: string[] = [];
  const add = (text: string): void => {
    if (!noise.some((pattern) => pattern.test(text))) errors.push(text);
  };
  // A renderer that throws shows as an error on the console, never as an error of the page.
  page.on('console', (message) => {
    if (message.type() === 'error') add(`${message.text()} (${message.location().url})`);
  });
  page.on('pageerror', (error) => add(error.stack ?? error.message));
  return errors;
}
