// `npm run vsix`: packs the extension as extension/broomline-VERSION.vsix, which every VS Code installs without a network.
//
// A VSIX is a zip file with a manifest in XML. Packing it takes a page; the usual packer brings a hundred packages that
// talk to a marketplace, and this project has none.
import { createWriteStream, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { fileURLToPath } from 'node:url';
import yazl from 'yazl';
import { buildExtension } from './extension.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const folder = join(root, 'extension');

/** Bytes that the packed extension may have. */
export const LARGEST = 1.5e6;

/** The same moment for every file, so that the same content packs to the same bytes. */
const MOMENT = new Date(2031, 0, 1);

/** Packs what lies built in extension/dist; returns the path of the file. */
export async function packExtension() {
  const manifest = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const nls = JSON.parse(readFileSync(join(folder, 'package.nls.json'), 'utf8'));
  const path = join(folder, `${manifest.name}-${manifest.version}.vsix`);
  const zip = new yazl.ZipFile();
  const add = (text, name) => zip.addBuffer(Buffer.from(text), name, { mtime: MOMENT, compressionLevel: 9 });
  add(described(manifest, nls), 'extension.vsixmanifest');
  add(contentTypes(), '[Content_Types].xml');
  for (const name of packedFiles())
    zip.addBuffer(readFileSync(join(folder, name)), `extension/${name}`, { mtime: MOMENT, compressionLevel: 9 });
  zip.end();
  await pipeline(zip.outputStream, createWriteStream(path));
  return path;
}

/** The files that .vscodeignore lets in, sorted. */
export function packedFiles() {
  const wanted = readFileSync(join(folder, '.vscodeignore'), 'utf8')
    .split('\n')
    .filter(line => line.startsWith('!'))
    .map(line => line.slice(1).trim());
  const fits = name =>
    wanted.some(pattern => {
      if (pattern.endsWith('/**')) return name.startsWith(pattern.slice(0, -2));
      const [before, after] = pattern.split('*');
      if (after === undefined) return name === pattern;
      return name.startsWith(before) && name.endsWith(after) && !name.slice(before.length).includes('/');
    });
  return readdirSync(folder, { recursive: true })
    .map(name => name.replaceAll('\\', '/'))
    .filter(name => fits(name) && statSync(join(folder, name)).isFile())
    .sort();
}

function described({ name, version, publisher, displayName, engines, categories, keywords, icon }, nls) {
  return `<?xml version="1.0" encoding="utf-8"?>
<PackageManifest Version="2.0.0" xmlns="http://schemas.microsoft.com/developer/vsx-schema/2011">
  <Metadata>
    <Identity Language="en-US" Id="${inXml(name)}" Version="${inXml(version)}" Publisher="${inXml(publisher)}"/>
    <DisplayName>${inXml(displayName)}</DisplayName>
    <Description xml:space="preserve">${inXml(nls['extension.description'])}</Description>
    <Tags>${inXml(keywords.join(','))}</Tags>
    <Categories>${inXml(categories.join(','))}</Categories>
    <Properties>
      <Property Id="Microsoft.VisualStudio.Code.Engine" Value="${inXml(engines.vscode)}"/>
      <Property Id="Microsoft.VisualStudio.Code.ExtensionKind" Value="workspace,ui,web"/>
    </Properties>
    <License>extension/LICENSE</License>
    <Icon>extension/${inXml(icon)}</Icon>
  </Metadata>
  <Installation>
    <InstallationTarget Id="Microsoft.VisualStudio.Code"/>
  </Installation>
  <Dependencies/>
  <Assets>
    <Asset Type="Microsoft.VisualStudio.Code.Manifest" Path="extension/package.json" Addressable="true"/>
    <Asset Type="Microsoft.VisualStudio.Services.Content.Details" Path="extension/README.md" Addressable="true"/>
    <Asset Type="Microsoft.VisualStudio.Services.Content.License" Path="extension/LICENSE" Addressable="true"/>
    <Asset Type="Microsoft.VisualStudio.Services.Icons.Default" Path="extension/${inXml(icon)}" Addressable="true"/>
  </Assets>
</PackageManifest>
`;
}

function contentTypes() {
  const types = {
    json: 'application/json',
    vsixmanifest: 'text/xml',
    js: 'application/javascript',
    cjs: 'application/javascript',
    css: 'text/css',
    md: 'text/markdown',
    svg: 'image/svg+xml',
    png: 'image/png',
  };
  const entries = Object.entries(types).map(
    ([extension, type]) => `  <Default Extension=".${extension}" ContentType="${type}"/>`,
  );
  return `<?xml version="1.0" encoding="utf-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
${entries.join('\n')}
</Types>
`;
}

function inXml(text) {
  return String(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await buildExtension();
  const path = await packExtension();
  const { size } = statSync(path);
  console.log(`${path}: ${(size / 1e6).toFixed(2)} MB`);
  if (size > LARGEST) {
    console.error(`That is more than ${LARGEST / 1e6} MB.`);
    process.exitCode = 1;
  }
}
