/** The preview in the editor: draws what the host sends, and asks it for the rest. */
import { render } from 'preact';
import { App } from './app.tsx';
import { editorChannel } from './channel.ts';
import { Words, wordsOf } from './words.ts';

const place = document.getElementById('preview');
if (place) {
  render(
    <Words.Provider value={wordsOf(place.dataset.words)}>
      <App channel={editorChannel()} />
    </Words.Provider>,
    place,
  );
}
