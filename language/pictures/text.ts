/**
 * Width of text before there is a screen, so that labels can be placed where they touch nothing, in an export as in the
 * preview. The widths are those of a wide sans serif (DejaVu Sans, measured at 1000 px): other fonts of editors are
 * narrower, so what does not overlap here does not overlap there.
 */

/** Sizes of text in the pictures, px. Nothing is smaller. */
export const small = 11;
export const plain = 12;
export const large = 13;

const regular =
  '318 401 460 838 636 950 780 275 390 390 500 838 318 361 318 337 636 636 636 636 636 636 636 636 636 636 337 337 838 838 838 531 1000 684 686 698 770 632 575 775 752 295 295 656 557 863 748 787 603 787 695 635 611 732 684 989 685 611 685 390 337 390 838 500 500 613 635 550 635 615 352 635 634 278 278 579 278 974 634 612 635 635 411 521 392 634 592 818 592 592 525 636 337 636 838'
    .split(' ')
    .map(Number);
const bold =
  '348 456 521 838 696 1002 872 306 457 457 523 838 380 415 380 365 696 696 696 696 696 696 696 696 696 696 400 400 838 838 838 580 1000 774 762 734 830 683 683 821 837 372 372 775 637 995 837 850 733 850 770 720 682 812 774 1103 771 724 725 457 365 457 838 500 500 675 716 593 716 678 435 716 712 343 343 665 343 1042 712 687 716 716 493 595 478 712 652 924 645 652 582 712 365 712 838'
    .split(' ')
    .map(Number);
const others: Readonly<Record<string, number>> = {
  '–': 500,
  '—': 1000,
  '·': 380,
  '×': 838,
  '✓': 838,
  '✕': 838,
  '≥': 838,
  '≤': 838,
  '²': 438,
  '³': 438,
  '→': 838,
  '−': 838,
  '…': 1000,
  '’': 380,
  '‘': 380,
  '“': 657,
  '”': 657,
  '°': 500,
  '▸': 502,
  '◇': 769,
};

/** Width of a text, px. */
export function textWidth(text: string, size: number = small, isBold = false): number {
  const widths = isBold ? bold : regular;
  let sum = 0;
  for (const letter of text) {
    // What is not in the tables (other scripts) is taken as a wide letter.
    sum += widths[letter.charCodeAt(0) - 32] ?? others[letter] ?? 900;
  }
  return (sum * size) / 1000;
}

/** The text, or as much of it as fits, with an ellipsis. */
export function cut(text: string, width: number, size: number = small, isBold = false): string {
  if (textWidth(text, size, isBold) <= width) return text;
  let end = text.length;
  while (end > 0 && textWidth(`${text.slice(0, end).trimEnd()}…`, size, isBold) > width) end--;
  return end === 0 ? '' : `${text.slice(0, end).trimEnd()}…`;
}

/** The first of several wordings that fits; undefined where none does. */
export function fitting(
  width: number,
  wordings: readonly string[],
  size: number = small,
  isBold = false,
): string | undefined {
  return wordings.find(each => each !== '' && textWidth(each, size, isBold) <= width);
}

/** A text in lines no wider than `width`; at most `most` of them, the last one cut. */
export function wrapped(text: string, width: number, size: number, isBold = false, most = 3): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/)) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer, size, isBold) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  if (line !== '') lines.push(line);
  if (lines.length <= most) return lines.map(each => cut(each, width, size, isBold));
  return [...lines.slice(0, most - 1), lines.slice(most - 1).join(' ')].map(each => cut(each, width, size, isBold));
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

export type Anchor = 'start' | 'middle' | 'end';

/** The box of a line of text whose baseline is at y. */
export function boxOf(text: string, x: number, y: number, anchor: Anchor, size: number = small, isBold = false): Box {
  const w = textWidth(text, size, isBold);
  return { x: anchor === 'start' ? x : anchor === 'end' ? x - w : x - w / 2, y: y - size * 0.78, w, h: size };
}

/** Room that is taken. A label asks before it is set; what is asked first has it. */
export interface Room {
  /** Takes the box if nothing is there; says whether it did. */
  readonly take: (box: Box, gap?: number) => boolean;
  readonly isFree: (box: Box, gap?: number) => boolean;
  /** Keeps a box free of labels, whatever lies there. */
  readonly keep: (box: Box) => void;
}

export function newRoom(): Room {
  const taken: Box[] = [];
  const isFree = (box: Box, gap = 2): boolean =>
    taken.every(
      other =>
        box.x + box.w + gap <= other.x ||
        other.x + other.w + gap <= box.x ||
        box.y + box.h <= other.y ||
        other.y + other.h <= box.y,
    );
  return {
    isFree,
    keep: box => void taken.push(box),
    take: (box, gap) => {
      const free = isFree(box, gap);
      if (free) taken.push(box);
      return free;
    },
  };
}
