/**
 * Boxes of all text in a picture, measured in two fonts that differ: a wide one (DejaVu Sans) and a narrow one (Liberation
 * Sans, whose widths are those of the common office sans serif). Widths were measured in Chromium at 1000 px, character by
 * character; letters beyond ASCII count as wide.
 */

export interface TextBox {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
  readonly size: number;
}

export type Font = 'wide' | 'narrow';

/** Every `<text>` of an SVG text, moved by the translations of the groups about it. */
export function textBoxes(svg: string, font: Font): readonly TextBox[] {
  const boxes: TextBox[] = [];
  const stack: (readonly [number, number])[] = [[0, 0]];
  const pattern = /<(\/?)g\b([^>]*?)(\/?)>|<text\b([^>]*)>([^<]*)<\/text>/g;
  for (const [, close, group = '', selfClosed, attributes, content = ''] of svg.matchAll(pattern)) {
    const [dx, dy] = stack.at(-1)!;
    if (attributes === undefined) {
      if (close) stack.pop();
      else if (!selfClosed) {
        const [, mx = '0', my = '0'] = /transform="translate\(([-\d.]+) ([-\d.]+)\)"/.exec(group) ?? [];
        stack.push([dx + Number(mx), dy + Number(my)]);
      }
      continue;
    }
    const text = content
      .replaceAll('&lt;', '<')
      .replaceAll('&gt;', '>')
      .replaceAll('&quot;', '"')
      .replaceAll('&amp;', '&');
    if (text.trim() === '') continue;
    const number = (key: string): number => Number(new RegExp(`\\b${key}="([-\\d.]+)"`).exec(attributes)?.[1]);
    const classes = / class="([^"]*)"/.exec(attributes)?.[1]?.split(' ') ?? [];
    const size = Number(classes.find(each => /^t\d+$/.test(each))?.slice(1) ?? 11);
    const w = widthOf(text, size, classes.includes('b'), font);
    const anchor = / text-anchor="(\w+)"/.exec(attributes)?.[1] ?? 'start';
    const x = number('x') + dx - (anchor === 'middle' ? w / 2 : anchor === 'end' ? w : 0);
    // Capital height: letters without descenders touch only where these do.
    boxes.push({ text, x, y: number('y') + dy - 0.73 * size, w, h: 0.73 * size, size });
  }
  return boxes;
}

/** Pairs that cover each other by more than half a pixel. */
export function overlaps(boxes: readonly TextBox[]): readonly string[] {
  const found: string[] = [];
  boxes.forEach((a, i) => {
    for (const b of boxes.slice(i + 1)) {
      const across = Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x);
      const down = Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y);
      if (across > 0.5 && down > 0.5)
        found.push(`'${a.text}' and '${b.text}' at ${Math.round(a.x)}, ${Math.round(a.y)}`);
    }
  });
  return found;
}

function widthOf(text: string, size: number, bold: boolean, font: Font): number {
  const widths = tables[font][bold ? 1 : 0]!;
  let sum = 0;
  for (const letter of text) sum += widths[letter.charCodeAt(0) - 32] ?? (/[–·’‘]/.test(letter) ? 560 : 900);
  return (sum * size) / 1000;
}

const numbers = (text: string): readonly number[] => text.split(' ').map(Number);
const tables: Readonly<Record<Font, readonly (readonly number[])[]>> = {
  wide: [
    numbers(
      '318 401 460 838 636 950 780 275 390 390 500 838 318 361 318 337 636 636 636 636 636 636 636 636 636 636 337 337 838 838 838 531 1000 684 686 698 770 632 575 775 752 295 295 656 557 863 748 787 603 787 695 635 611 732 684 989 685 611 685 390 337 390 838 500 500 613 635 550 635 615 352 635 634 278 278 579 278 974 634 612 635 635 411 521 392 634 592 818 592 592 525 636 337 636 838',
    ),
    numbers(
      '348 456 521 838 696 1002 872 306 457 457 523 838 380 415 380 365 696 696 696 696 696 696 696 696 696 696 400 400 838 838 838 580 1000 774 762 734 830 683 683 821 837 372 372 775 637 995 837 850 733 850 770 720 682 812 774 1103 771 724 725 457 365 457 838 500 500 675 716 593 716 678 435 716 712 343 343 665 343 1042 712 687 716 716 493 595 478 712 652 924 645 652 582 712 365 712 838',
    ),
  ],
  narrow: [
    numbers(
      '278 278 355 556 556 889 667 191 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 556 556 278 278 584 584 584 556 1015 667 667 722 722 667 611 778 722 278 500 667 556 833 722 778 667 778 722 667 611 722 667 944 667 667 611 278 278 278 469 556 333 556 556 500 556 556 278 556 556 222 222 500 222 833 556 556 556 556 333 500 278 556 500 722 500 500 500 334 260 334 584',
    ),
    numbers(
      '278 333 474 556 556 889 722 238 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 556 556 333 333 584 584 584 611 975 722 722 722 722 667 611 778 722 278 556 722 611 833 722 778 667 778 722 667 611 722 667 944 667 667 611 333 278 333 584 556 333 556 611 556 611 556 333 611 611 278 278 556 278 889 611 611 611 611 389 556 333 611 556 778 556 556 500 389 280 389 584',
    ),
  ],
};
