/** The preview's words: those the host handed over with the page, for every part of it. */
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import { english, type Translate, translator } from '../../language/pictures/words.ts';

export const Words = createContext<Translate>(english);

/** The words of the reader's language, inside a part of the page. */
export function useWords(): Translate {
  return useContext(Words);
}

/** Words from the page's own attribute: a table of English texts and their translations, as JSON. */
export function wordsOf(attribute: string | undefined): Translate {
  if (!attribute) return english;
  const table: unknown = JSON.parse(attribute);
  return translator(typeof table === 'object' && table !== null ? { ...table } : {});
}
