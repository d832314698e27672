/**
 * How the pictures look. Every colour is one of the reader's theme (`--vscode-*`) or a mixture of two of them; nothing
 * means 'good' by its hue, and every sign that a colour gives is given by a shape or a hatch as well.
 *
 * In the editor the tokens stay variables. An exported picture has them resolved, since other programs know neither
 * variables nor mixtures.
 */

/** A token: a variable of the theme with what stands in for it, or a mixture of two tokens. */
type Token =
  | { readonly theme: string; readonly or?: Name }
  | { readonly mix: Name; readonly share: number; readonly with: Name };

const tokens = {
  ink: { theme: '--vscode-foreground' },
  quiet: { theme: '--vscode-descriptionForeground', or: 'ink' },
  paper: { theme: '--vscode-editor-background' },
  rule: { mix: 'ink', share: 24, with: 'paper' },
  faint: { mix: 'ink', share: 9, with: 'paper' },
  pavement: { mix: 'ink', share: 22, with: 'paper' },
  paint: { mix: 'paper', share: 92, with: 'ink' },
  rubber: { mix: 'ink', share: 72, with: 'pavement' },
  rubberGround: { mix: 'ink', share: 8, with: 'pavement' },
  product: { theme: '--vscode-charts-purple' },
  water: { theme: '--vscode-charts-blue' },
  error: { theme: '--vscode-editorError-foreground' },
  warning: { theme: '--vscode-editorWarning-foreground' },
  focus: { theme: '--vscode-focusBorder' },
  chip: { theme: '--vscode-button-background' },
  chipInk: { theme: '--vscode-button-foreground' },
  border: { theme: '--vscode-contrastBorder', or: 'rule' },
  tint0: { mix: 'product', share: 10, with: 'paper' },
  tint1: { mix: 'product', share: 23, with: 'paper' },
  tint2: { mix: 'product', share: 37, with: 'paper' },
  tint3: { mix: 'product', share: 52, with: 'paper' },
  wet: { mix: 'product', share: 55, with: 'pavement' },
  standing: { mix: 'product', share: 34, with: 'paper' },
  leaving: { mix: 'product', share: 13, with: 'paper' },
  waterPale: { mix: 'water', share: 40, with: 'paper' },
  errorPale: { mix: 'error', share: 12, with: 'paper' },
} as const satisfies Readonly<
  Record<string, { theme: string; or?: string } | { mix: string; share: number; with: string }>
>;

type Name = keyof typeof tokens;

/** Paint is lighter than the pavement: in dark themes it is mixed the other way round. */
const darkPaint: Token = { mix: 'ink', share: 78, with: 'paper' };

export interface Theme {
  readonly kind: 'light' | 'dark' | 'high contrast';
  /** Colours of the theme by variable, as CSS writes them. */
  readonly colours: Readonly<Record<string, string>>;
}

/** Themes for pictures that are made where there is no editor. */
export const themes: Readonly<Record<'light' | 'dark', Theme>> = {
  light: {
    kind: 'light',
    colours: {
      '--vscode-foreground': 'rgb(45 45 48)',
      '--vscode-descriptionForeground': 'rgb(98 98 104)',
      '--vscode-editor-background': 'rgb(255 255 255)',
      '--vscode-charts-purple': 'rgb(101 45 144)',
      '--vscode-charts-blue': 'rgb(26 133 255)',
      '--vscode-editorError-foreground': 'rgb(205 25 25)',
      '--vscode-editorWarning-foreground': 'rgb(150 95 0)',
      '--vscode-focusBorder': 'rgb(0 95 184)',
      '--vscode-button-background': 'rgb(0 95 184)',
      '--vscode-button-foreground': 'rgb(255 255 255)',
    },
  },
  dark: {
    kind: 'dark',
    colours: {
      '--vscode-foreground': 'rgb(208 208 208)',
      '--vscode-descriptionForeground': 'rgb(157 157 157)',
      '--vscode-editor-background': 'rgb(31 31 31)',
      '--vscode-charts-purple': 'rgb(177 128 215)',
      '--vscode-charts-blue': 'rgb(55 148 255)',
      '--vscode-editorError-foreground': 'rgb(248 98 90)',
      '--vscode-editorWarning-foreground': 'rgb(204 167 0)',
      '--vscode-focusBorder': 'rgb(40 140 240)',
      '--vscode-button-background': 'rgb(0 110 200)',
      '--vscode-button-foreground': 'rgb(255 255 255)',
    },
  },
};

/** Style sheet for the editor: tokens as variables of the editor's theme. */
export function liveStyle(): string {
  const names = Object.keys(tokens) as Name[];
  const lines = names.map(name => `  --bl-${name}: ${written(tokens[name])};`);
  const dark = `body.vscode-dark, body.vscode-high-contrast:not(.vscode-high-contrast-light) { --bl-paint: ${written(darkPaint)}; }`;
  // Variables that hang on others are set on the body, where the editor sets its own.
  return `body {\n${lines.join('\n')}\n}\n${dark}\n${rules(name => `var(--bl-${name})`, `var(--vscode-font-family, ${fonts})`)}${highContrast}`;
}

/** Style sheet for a picture by itself: colours resolved. */
export function exportStyle(theme: Theme): string {
  const resolve = (name: Name): Colour => {
    const token: Token = name === 'paint' && theme.kind !== 'light' ? darkPaint : tokens[name];
    if ('theme' in token) {
      const colour = parseColour(theme.colours[token.theme] ?? '');
      if (colour) return colour;
      return 'or' in token && token.or ? resolve(token.or) : [128, 128, 128];
    }
    const [a, b] = [resolve(token.mix), resolve(token.with)];
    return [0, 1, 2].map(i => (a[i]! * token.share + b[i]! * (100 - token.share)) / 100) as unknown as Colour;
  };
  return rules(name => `rgb(${resolve(name).map(Math.round).join(',')})`, fonts);
}

function written(token: Token): string {
  if ('theme' in token)
    return 'or' in token && token.or ? `var(${token.theme}, var(--bl-${token.or}))` : `var(${token.theme})`;
  return `color-mix(in srgb, var(--bl-${token.mix}) ${token.share}%, var(--bl-${token.with}))`;
}

type Colour = readonly [number, number, number];

/** Red, green and blue of a colour as CSS writes it: `rgb(1 2 3)`, `rgba(1, 2, 3, 0.5)`, six hexadecimal digits. */
export function parseColour(text: string): Colour | undefined {
  const hex = /^#([0-9a-f]{3}|[0-9a-f]{6})([0-9a-f]{2})?$/i.exec(text.trim())?.[1];
  if (hex) {
    const six = hex.length === 3 ? [...hex].map(each => each + each).join('') : hex;
    return [0, 2, 4].map(i => Number.parseInt(six.slice(i, i + 2), 16)) as unknown as Colour;
  }
  const numbers = /^rgba?\(([^)]*)\)$/
    .exec(text.trim())?.[1]
    ?.split(/[\s,/]+/)
    .filter(part => part !== '')
    .map(Number);
  if (!numbers || numbers.length < 3 || numbers.some(Number.isNaN)) return undefined;
  return numbers.slice(0, 3) as unknown as Colour;
}

const fonts = "'DejaVu Sans', 'Segoe UI', Ubuntu, sans-serif";

/** Classes of the pictures. `c` gives a token's colour. */
function rules(c: (name: Name) => string, font: string): string {
  return `
.bl-sheet { background: ${c('paper')}; font-family: ${font}; }
.bl-sheet text { fill: ${c('ink')}; font-size: 11px; }
.bl-sheet .t12 { font-size: 12px; }
.bl-sheet .t13 { font-size: 13px; }
.bl-sheet .t15 { font-size: 15px; }
.bl-sheet .b { font-weight: 700; }
.bl-sheet text.quiet { fill: ${c('quiet')}; }
.bl-sheet text.bad { fill: ${c('error')}; }
.bl-sheet text.warn { fill: ${c('warning')}; }
.bl-sheet text.chip { fill: ${c('chipInk')}; }
.bl-sheet text.on { fill: ${c('paper')}; }
.bl-sheet text.halo { stroke: ${c('paper')}; stroke-width: 3px; stroke-linejoin: round; paint-order: stroke; }
.paper { fill: ${c('paper')}; }
.plate { fill: ${c('paper')}; fill-opacity: 0.93; }
.plate.on-box { fill: ${c('ink')}; fill-opacity: 1; }
.plate.on-band { fill: ${c('standing')}; fill-opacity: 1; }
.rule { stroke: ${c('rule')}; stroke-width: 1; fill: none; }
.axis { stroke: ${c('quiet')}; stroke-width: 1; fill: none; }
.heavy { stroke: ${c('ink')}; stroke-width: 2; fill: none; }
.back { stroke: ${c('ink')}; stroke-width: 1.5; fill: none; }
.due { stroke: ${c('ink')}; stroke-width: 1.5; stroke-dasharray: 7 3 1.5 3; fill: none; }
.guide { stroke: ${c('quiet')}; stroke-width: 1; stroke-dasharray: 4 3; fill: none; }
.guide.end { stroke-dasharray: 1.5 2.5; }
.pavement { fill: ${c('pavement')}; stroke: ${c('border')}; stroke-width: 1; }
.paint { fill: ${c('paint')}; }
.rubber-ground { fill: ${c('rubberGround')}; stroke: ${c('rubber')}; stroke-width: 1; }
.rubber-ink { fill: ${c('rubber')}; }
.rubber-line { stroke: ${c('rubber')}; stroke-width: 1.2; fill: none; }
.wet { fill: ${c('wet')}; }
.tint0 { fill: ${c('tint0')}; } .tint1 { fill: ${c('tint1')}; } .tint2 { fill: ${c('tint2')}; } .tint3 { fill: ${c('tint3')}; }
.missed { fill: ${c('errorPale')}; }
.miss-line { stroke: ${c('error')}; stroke-width: 1.1; fill: none; }
.miss-edge { stroke: ${c('error')}; stroke-width: 1.5; fill: none; }
.outline { stroke: ${c('quiet')}; stroke-width: 1; fill: none; }

.slab { stroke: ${c('tint3')}; stroke-width: 1; fill: none; }
.standing { fill: ${c('standing')}; }
.leaving { fill: ${c('leaving')}; }
.limit { stroke: ${c('product')}; stroke-width: 1.3; fill: none; }
.limit.least { stroke-dasharray: 1.5 2.5; }
.limit.most { stroke-dasharray: 6 3; }
.pass { fill: none; stroke-width: 1; }
.pass.apply { stroke: ${c('product')}; stroke-width: 2; }
.pass.contact, .pass.sweep, .pass.pickup { stroke: ${c('quiet')}; }
.pass.wet, .pass.rinse, .pass.jet { stroke: ${c('water')}; fill: none; }
.pass.rinse, .pass.wet { stroke-dasharray: 7 2.5; }
.pass.sweep, .pass.pickup { stroke-dasharray: 5 2 1 2; }
.pass.jet { stroke-width: 1.6; stroke-dasharray: 12 1.5 1.5 1.5; }
.box { stroke: ${c('ink')}; stroke-width: 1; fill: ${c('paper')}; }
.box.apply { fill: ${c('product')}; stroke: ${c('product')}; }
.box.contact { fill: ${c('ink')}; stroke: ${c('ink')}; }
.box.jet { fill: ${c('water')}; stroke: ${c('water')}; }
.box.rinse, .box.wet { stroke: ${c('water')}; }
.box.walk { stroke-dasharray: 3 2; }
.stripe-water { stroke: ${c('waterPale')}; stroke-width: 2; }
.stripe-jet { stroke: ${c('paper')}; stroke-width: 1; stroke-opacity: 0.45; fill: none; }
.dot-product { fill: ${c('paper')}; fill-opacity: 0.75; }
.stripe-ink { stroke: ${c('rule')}; stroke-width: 2; }
.dot-ink { fill: ${c('quiet')}; }
.reserve-line { stroke: ${c('rule')}; stroke-width: 1; }
.idle { stroke: ${c('rule')}; stroke-width: 1; stroke-dasharray: 1 3; fill: none; }
.bar.contacts { fill: ${c('quiet')}; } .bar.contacts.more { fill: ${c('rule')}; }
.bar.jets { fill: ${c('water')}; } .bar.jets.more { fill: ${c('waterPale')}; }
.bar.rinses { fill: ${c('water')}; } .bar.rinses.more { fill: ${c('waterPale')}; }
.need { stroke: ${c('ink')}; stroke-width: 1.2; stroke-dasharray: 4 2.5; fill: none; }
.m-sprayer { fill: ${c('product')}; } .m-water-truck, .m-jet { fill: ${c('water')}; }
.m-broom, .m-sweeper, .m-magnet { fill: ${c('ink')}; }
.machine { stroke: ${c('paper')}; stroke-width: 1; }
.leader { stroke: ${c('quiet')}; stroke-width: 1; fill: none; }
.trail { stroke-width: 1; fill: none; stroke: ${c('ink')}; stroke-opacity: 0.55; }
.trail.apply { stroke: ${c('product')}; stroke-opacity: 1; } .trail.rinse, .trail.wet, .trail.jet { stroke: ${c('water')}; stroke-opacity: 1; }
.trail.apply { stroke-width: 1.8; } .trail.rinse, .trail.wet { stroke-dasharray: 7 2.5; } .trail.jet { stroke-dasharray: 12 1.5 1.5 1.5; }
.ring { stroke: ${c('ink')}; stroke-width: 1.6; fill: none; }
.ring.bad { stroke: ${c('error')}; stroke-width: 2; }
.ring-halo { stroke: ${c('paper')}; stroke-width: 4; fill: none; }
.recall { stroke: ${c('ink')}; stroke-width: 1.5; fill: none; stroke-linejoin: round; }
.recall-area { fill: ${c('faint')}; }
.recall-limit { stroke: ${c('ink')}; stroke-width: 1.2; stroke-dasharray: 5 3; fill: none; }
.now { stroke: ${c('focus')}; stroke-width: 1.5; fill: none; }
.pill { fill: ${c('chip')}; }
.select { stroke: ${c('focus')}; stroke-width: 2; fill: none; }
.cross { stroke: ${c('focus')}; stroke-width: 1; fill: none; stroke-dasharray: 3 2; pointer-events: none; }
.sign-bad { fill: ${c('error')}; } .sign-warn { fill: ${c('warning')}; } .sign-line { stroke: ${c('ink')}; stroke-width: 1.6; fill: none; stroke-linecap: round; stroke-linejoin: round; }
.sign-cut { stroke: ${c('paper')}; stroke-width: 1.6; fill: none; stroke-linecap: round; }
.strip { fill: ${c('faint')}; stroke: ${c('rule')}; stroke-width: 1; }
.strip-bay { fill: ${c('tint2')}; }
.handle { fill: ${c('paper')}; stroke: ${c('ink')}; stroke-width: 1.2; }
.handle-line { stroke: ${c('ink')}; stroke-width: 1; fill: none; }
.refused .handle { fill: ${c('faint')}; stroke: ${c('quiet')}; stroke-dasharray: 2 1.5; }
.hit { fill: transparent; stroke: none; }
`;
}

/** The editor's quieter ink of high contrast lets the ground shine through; on white that is less contrast than promised. */
const highContrast = `
body.vscode-high-contrast { --bl-quiet: ${written({ mix: 'ink', share: 85, with: 'paper' })}; }
.vscode-high-contrast .box, .vscode-high-contrast .strip-bay, .vscode-high-contrast .standing { stroke: var(--vscode-contrastBorder); }
.vscode-high-contrast .paint { stroke: var(--bl-ink); stroke-width: 0.5; }
`;
