// Draws what the command line really prints, as SVG pictures for the README. Run after a build: npm run picture
import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));

const PICTURES = [
  { name: 'check', args: ['check', 'examples/wrong-on-purpose.broom'], from: /presure-limit/, lines: 40 },
  { name: 'derive', args: ['derive', 'examples/tern-sands/tender-2031.broom'], from: /^/, lines: 54 },
];

/** Colours of the two themes; a reader's system chooses. */
const THEMES = {
  light: {
    paper: '#fbfaf7',
    text: '#23262b',
    quiet: '#6b7178',
    red: '#b3261e',
    yellow: '#8a5a00',
    cyan: '#00697a',
    green: '#2b6b2f',
  },
  dark: {
    paper: '#1d2024',
    text: '#e4e2dc',
    quiet: '#969ca4',
    red: '#ff8a80',
    yellow: '#f0c36a',
    cyan: '#7fd3e0',
    green: '#93d39a',
  },
};

// biome-ignore lint/suspicious/noControlCharactersInRegex: the terminal's codes are what is read here
const STYLE_CODE = /\u001B\[(\d+)m/;
const CODES = { 1: 'bold', 2: 'quiet', 31: 'red', 32: 'green', 33: 'yellow', 36: 'cyan' };
const [EM, LINE, MARGIN] = [8.43, 19, 20];

const folder = new URL('../examples/pictures/', import.meta.url);
mkdirSync(folder, { recursive: true });
for (const { name, args, from, lines } of PICTURES) {
  writeFileSync(new URL(`${name}.svg`, folder), draw(`broomline ${args.join(' ')}`, cut(printed(args), from, lines)));
}

function printed(args) {
  const env = { ...process.env, FORCE_COLOR: '1' };
  try {
    return execFileSync(process.execPath, ['server/dist/broomline.mjs', ...args], { cwd: root, env, encoding: 'utf8' });
  } catch (error) {
    // Findings of severity error end with 1; what was printed is what is wanted.
    if (error.status === 1) return error.stdout;
    throw error;
  }
}

/** A stretch of the output, begun and ended at empty lines. */
function cut(text, from, most) {
  const all = text.trimEnd().split('\n');
  const hit = Math.max(
    0,
    all.findIndex(line => from.test(strip(line))),
  );
  const first = hit > 2 ? all.lastIndexOf('', hit) + 1 : 0;
  const stretch = all.slice(first, first + most);
  const end = first + most < all.length ? stretch.lastIndexOf('') : stretch.length;
  const dots = shown => (shown ? ['  …'] : []);
  return [...dots(first > 0), ...stretch.slice(0, end), ...dots(end < all.length - first)];
}

function draw(command, lines) {
  const columns = Math.max(...lines.map(line => strip(line).length), command.length + 2);
  const [w, h] = [Math.ceil(columns * EM + 2 * MARGIN), (lines.length + 2) * LINE + 2 * MARGIN];
  const rows = [`\u001B[2m$\u001B[22m \u001B[1m${command}\u001B[22m`, '', ...lines];
  const text = rows.map((line, i) => `<text x="${MARGIN}" y="${MARGIN + 14 + i * LINE}">${spans(line)}</text>`);
  return `<svg xmlns="http://www.w3.org/2000/svg" xml:space="preserve" font-size="14" font-family="ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace" viewBox="0 0 ${w} ${h}" width="${w}" height="${h}" role="img" aria-label="What ${inXml(command)} prints">
<style>
${styles(THEMES.light)}
@media (prefers-color-scheme: dark) { ${styles(THEMES.dark)} }
text { white-space: pre }
.bold { font-weight: 700 }
</style>
<rect class="paper" width="100%" height="100%" rx="6"/>
${text.join('\n')}
</svg>
`;
}

function styles({ paper, text, ...rest }) {
  const colours = Object.entries(rest).map(([name, colour]) => `.${name} { fill: ${colour} }`);
  return `.paper { fill: ${paper} } text { fill: ${text} } ${colours.join(' ')}`;
}

/** Escape codes to spans. Each piece says where it starts, so a fallback font can't shift what follows. */
function spans(line) {
  let style = new Set();
  let column = 0;
  let out = '';
  // Split with a group: text and codes in turn.
  for (const [i, part] of line.split(STYLE_CODE).entries()) {
    if (i % 2 === 0) {
      const classes = [...style].join(' ');
      if (part !== '')
        out += `<tspan x="${(MARGIN + column * EM).toFixed(1)}"${classes && ` class="${classes}"`}>${inXml(part)}</tspan>`;
      column += part.length;
    } else if (CODES[part]) style = new Set([...style, CODES[part]]);
    else if (part === '22') style = new Set([...style].filter(each => each !== 'bold' && each !== 'quiet'));
    else if (part === '39') style = new Set([...style].filter(each => each === 'bold' || each === 'quiet'));
  }
  return out;
}

function strip(line) {
  return line
    .split(STYLE_CODE)
    .filter((_, i) => i % 2 === 0)
    .join('');
}

function inXml(text) {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}
