/** Offsets of our own data as the protocol's positions, and the protocol's positions as offsets. */
import type { CstNode } from 'langium';
import type { Location, Position, Range } from 'vscode-languageserver';
import type { Place } from '../../language/vocabulary/given.ts';
import type { BroomDocument, Project } from './project.ts';

export function rangeIn(document: BroomDocument, start: number, end: number): Range {
  return { start: document.textDocument.positionAt(start), end: document.textDocument.positionAt(end) };
}

export function rangeOfNode(document: BroomDocument, node: Pick<CstNode, 'offset' | 'end'>): Range {
  return rangeIn(document, node.offset, node.end);
}

/** A position behind the end of its line counts as the end of the line, as the protocol says. */
export function offsetIn(document: BroomDocument, position: Position): number {
  return document.textDocument.offsetAt(position);
}

/** Where a place lies, in a file that is loaded. */
export function locationOf(project: Project, place: Place): Location | undefined {
  const document = project.documentOf(place.file);
  return document && { uri: project.addressOf(place.file), range: rangeIn(document, place.start, place.end) };
}

/** Text from `start` to `end`. */
export function slice(document: BroomDocument, start: number, end: number): string {
  return document.textDocument.getText().slice(start, end);
}
