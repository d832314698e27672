/**
 * Texture depth and grooves: what a measured depth asks for. The levels are remembered from `faa-12c-texture` and
 * `faa-12c-grooves`, so every answer says 'from memory'. Depths in m.
 */
import type { Mark, SourceId } from '../sources/sources.ts';

/** What a mean texture depth asks for. */
export type TextureAction =
  | 'none'
  | 'measure texture with every friction survey'
  | 'plan to correct within 1 year'
  | 'correct within 2 months'
  | 'not assigned: engineer to review';

/** A judged texture depth. */
export interface JudgedTexture {
  readonly action: TextureAction;
  readonly source: SourceId;
  readonly mark: Mark;
}

const millimetre = 1e-3;
const slack = 1e-9;

/**
 * What a zone's mean texture depth (m) asks for on an existing pavement. Between 0.25 and 0.40 mm the levels, as they
 * are remembered, assign nothing: an engineer must decide. `undefined` for a depth that isn't one.
 */
export function judgeTextureDepth(depth: number): JudgedTexture | undefined {
  if (!(depth >= 0)) return undefined;
  return { action: textureAction(depth), source: 'faa-12c-texture', mark: 'from memory' };
}

function textureAction(depth: number): TextureAction {
  if (depth >= 1.14 * millimetre - slack) return 'none';
  if (depth >= 0.76 * millimetre - slack) return 'measure texture with every friction survey';
  if (depth > 0.4 * millimetre + slack) return 'plan to correct within 1 year';
  return depth < 0.25 * millimetre - slack ? 'correct within 2 months' : 'not assigned: engineer to review';
}

/** A sample of groove depths against the acceptance of new grooves. Shares are 0 to 1. */
export interface JudgedGrooves {
  readonly shareAtLeast3Over16: number;
  readonly shareAtLeast1Over4: number;
  readonly shareOver5Over16: number;
  readonly accepted: boolean;
  readonly source: SourceId;
  readonly mark: Mark;
}

const inch = 0.0254;

/**
 * Judges depths of new 1/4 in grooves: 90 % at least 3/16 in, 60 % at least 1/4 in, no more than 10 % over 5/16 in.
 * `undefined` without a sample.
 */
export function judgeGrooveDepths(depths: readonly number[]): JudgedGrooves | undefined {
  if (depths.length === 0) return undefined;
  const share = (fits: (depth: number) => boolean) => depths.filter(fits).length / depths.length;
  const shareAtLeast3Over16 = share(depth => depth >= (3 / 16) * inch - slack);
  const shareAtLeast1Over4 = share(depth => depth >= (1 / 4) * inch - slack);
  const shareOver5Over16 = share(depth => depth > (5 / 16) * inch + slack);
  return {
    shareAtLeast3Over16,
    shareAtLeast1Over4,
    shareOver5Over16,
    accepted: shareAtLeast3Over16 >= 0.9 && shareAtLeast1Over4 >= 0.6 && shareOver5Over16 <= 0.1,
    source: 'faa-12c-grooves',
    mark: 'from memory',
  };
}

/** Whether worn grooves call for restoring: 40 % of them at or below 1/8 in over 1,500 ft. From memory. */
export function groovesWorn(depths: readonly number[], length: number): boolean {
  const worn = depths.filter(depth => depth <= (1 / 8) * inch + slack).length;
  return depths.length > 0 && worn / depths.length >= 0.4 && length >= 1_500 * 0.3048 - slack;
}
