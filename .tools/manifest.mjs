// Writes what the extension's manifest says twice: the settings from their schemas, and the list of texts that can be
// translated from the code. `npm run manifest`; a test fails when they are stale.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { z } from 'zod';

const root = fileURLToPath(new URL('..', import.meta.url));
const folder = join(root, 'extension');

/** The settings page, and the descriptions as the texts it refers to. */
export function settings(...schemas) {
  const properties = {};
  const texts = {};
  let order = 0;
  const walk = (schema, path) => {
    for (const [name, { description, properties: inner, ...rest }] of Object.entries(schema.properties)) {
      const key = `${path}.${name}`;
      if (inner) {
        walk({ properties: inner }, key);
        continue;
      }
      if (!description) throw new Error(`${key} has no description.`);
      const { value, ...shown } = described(rest);
      properties[key] = { ...shown, default: value, scope: 'window', order: order++, description: `%setting.${key}%` };
      texts[`setting.${key}`] = description;
    }
  };
  for (const schema of schemas) walk(z.toJSONSchema(schema, { io: 'input' }), 'broomline');
  return { configuration: { title: 'Broomline', properties }, texts };
}

/** What the settings page understands of a JSON Schema; `null` beside another type becomes a list of types. */
function described({ anyOf, ...schema }) {
  const all = anyOf ? Object.assign({}, ...anyOf, { type: anyOf.map(each => each.type) }) : schema;
  const { type, enum: words, minimum, maximum, format } = all;
  // The schema's own pattern knows leap years; nobody can read it in a message.
  const pattern = format === 'date' ? '^\\d{4}-\\d{2}-\\d{2}$' : all.pattern;
  const value = schema.default;
  return {
    type,
    ...(words && { enum: words }),
    ...(pattern && { pattern }),
    ...(minimum !== undefined && { minimum }),
    ...(maximum !== undefined && { maximum }),
    value,
  };
}

/** Where texts are shown: the folder, its files, and what is called with a text that can be translated. */
const WORDED = [
  { at: 'extension/src', files: /\.ts$/, calls: /l10n\.t$/ },
  { at: 'extension/preview', files: /\.tsx?$/, calls: /^(t|said)$/ },
  // words.ts itself hands on what it is given.
  { at: 'server/features', files: /\.ts$/, calls: /(^|\.)t$|^said$/ },
  { at: 'server/project', files: /\.ts$/, calls: /(^|\.)t$/ },
  { at: 'language/pictures', files: /(?<!^words)\.tsx?$/, calls: /^(t|said)$/ },
];

/** Every literal that the code hands to one of those, as the table that a translation starts from. */
export function translatable() {
  const found = new Set();
  for (const { at, files, calls } of WORDED) {
    for (const name of readdirSync(join(root, at), { recursive: true })) {
      if (!files.test(name)) continue;
      const source = ts.createSourceFile(name, readFileSync(join(root, at, name), 'utf8'), ts.ScriptTarget.Latest);
      const visit = node => {
        if (ts.isCallExpression(node) && calls.test(node.expression.getText(source))) {
          const [text] = node.arguments;
          if (!text || !ts.isStringLiteralLike(text))
            throw new Error(`${at}/${name}: a text to translate is a literal, not ${text?.getText(source)}`);
          found.add(text.text);
        }
        ts.forEachChild(node, visit);
      };
      visit(source);
    }
  }
  return Object.fromEntries([...found].sort().map(text => [text, text]));
}

/** The three files as they should be. */
export async function manifestFiles() {
  const { settingsSchema } = await import('../server/settings.ts');
  const { clientSettings } = await import('../extension/src/settings.ts');
  const { configuration, texts } = settings(settingsSchema, clientSettings);
  const manifest = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const nls = JSON.parse(readFileSync(join(folder, 'package.nls.json'), 'utf8'));
  const kept = Object.entries(nls).filter(([key]) => !key.startsWith('setting.'));
  return {
    'package.json': { ...manifest, contributes: { ...manifest.contributes, configuration } },
    'package.nls.json': { ...Object.fromEntries(kept), ...texts },
    'l10n/bundle.l10n.json': translatable(),
  };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const [name, content] of Object.entries(await manifestFiles()))
    writeFileSync(join(folder, name), `${JSON.stringify(content, null, 2)}\n`);
}
