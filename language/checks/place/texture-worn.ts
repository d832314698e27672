import { judgeTextureDepth } from '../../friction/texture.ts';
import { check } from '../check.ts';
import { refOf, say } from '../help.ts';

export default check({
  code: 'texture-worn',
  title: 'The texture beside the deposit is worn',
  severity: 'warning',
  why: 'Removing rubber gives back the texture that lies under it, and no more. Where the pavement beside the deposit is already worn smooth, friction will stay low after the best removal, and the pavement itself needs work.',
  source: 'faa-12c-texture',
  bad: ['    texture:   1.2 mm', '    texture:   0.6 mm'],
  *find(results) {
    for (const runway of results.job.blocks.runways) {
      const { texture } = runway;
      const judged = texture && judgeTextureDepth(texture.value);
      if (!judged || judged.action === 'none' || judged.action.startsWith('measure')) continue;
      yield {
        message: `A texture of ${say(results, texture.value, 'depth', texture)} beside the deposit is worn: ${judged.action} (${judged.mark}). Do not promise a friction that the pavement can't give any more.`,
        place: texture.place,
        about: refOf(runway),
      };
    }
  },
});
