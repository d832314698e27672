/**
 * The server for Node and for a browser's worker in one file: the packed extension holds it once instead of twice. Which
 * of the two it is shows at the start; the other one's platform is never touched.
 */
if (typeof (globalThis as { importScripts?: unknown }).importScripts === 'function') void import('./browser.ts');
else void import('./server.ts');

export {};
