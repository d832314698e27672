/** Moving syntax nodes along with the text, for which Langium has no interface. */
import type { CompositeCstNode, CstNode } from 'langium';

interface Movable {
  _offset: number;
  _startLine: number;
  _endLine: number;
}

/** The root of the syntax nodes, which holds the text. */
export interface Whole {
  _text: string;
}

/** A node that has others in it. */
export interface Spanning {
  _rangeCache: unknown;
}

/** Moves a node and all below it by so many characters and lines. Columns stay, since what moves begins where a line does. */
export function moveNode(node: CstNode, chars: number, lines: number): void {
  const stack = [node];
  for (let each = stack.pop(); each; each = stack.pop()) {
    if ('content' in each) {
      (each as unknown as Spanning)._rangeCache = undefined;
      stack.push(...(each as CompositeCstNode).content);
    } else {
      const leaf = each as unknown as Movable;
      leaf._offset += chars;
      leaf._startLine += lines;
      leaf._endLine += lines;
    }
  }
}
