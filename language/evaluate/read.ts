/**
 * From the value of a property in the syntax tree to what the vocabulary says it is: one reader for each way of writing
 * a value. A reader returns the value, or undefined after it has reported why there is none.
 */
import type { Value } from '../generated/ast.ts';
import type { Property } from '../vocabulary/define.ts';
import { phraseReaders } from './phrases.ts';
import { type ListReader, listReaders, type ReadContext, type Reading, readTable, refuse } from './readers.ts';

/** Reads the value of a property. */
export function read(value: Value, property: Property, word: string, context: ReadContext): Reading | undefined {
  const type = property.type;
  if (type.is === 'table') {
    if (value.$type !== 'Table') {
      return refuse(context, value, `${word} is a table: write ${property.example}, and a row on each line below.`);
    }
    return readTable(value, type.columns, word, context);
  }
  if (value.$type === 'Table')
    return refuse(
      context,
      value,
      `${word} is no table. Write it on one line, for example ${word}: ${property.example}.`,
    );
  if (!value.items) return undefined;
  const readList = listReaders[type.is as keyof typeof listReaders] as ListReader | undefined;
  if (readList) return readList(value.items, type, word, context, property);
  const phraseReader = phraseReaders[type.is as keyof typeof phraseReaders];
  return phraseReader(value.items, word, context, property);
}
