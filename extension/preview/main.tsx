/** The preview in the editor: draws what the host sends, and asks it for the rest. */
import { render } from 'preact';
import { App } from './app.tsx';
import { editorChannel } from './channel.ts';

const place = document.getElementById('preview');
if (place) render(<App channel={editorChannel()} />, place);
