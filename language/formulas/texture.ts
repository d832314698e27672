/** Surface texture: sand patch, profile depth, outflow, and what grooves add. SI: m, m³, s. */

/**
 * Mean texture depth from a sand patch, MTD = 4·V/(π·D²), m; D is the mean of the diameters measured (at least four).
 * Valid for about 0.25 to 5 mm. Sources: `astm-e965`; checked against `pavement-analysis-9-4`.
 */
export function sandPatchDepth(volume: number, diameters: readonly number[]): number {
  const mean = diameters.reduce((sum, diameter) => sum + diameter, 0) / diameters.length;
  return (4 * volume) / (Math.PI * mean ** 2);
}

/** Diameter of the patch that a texture depth gives, m. Inverse of `sandPatchDepth`. */
export function sandPatchDiameter(volume: number, depth: number): number {
  return Math.sqrt((4 * volume) / (Math.PI * depth));
}

/** Least volume of beads in the standard patch, m³ (25 ml). Source: `astm-e965`. */
export const sandPatchVolume = 25e-6;

/** Estimated texture depth from mean profile depth, 0.2 mm + 0.8·MPD, m. Source: `etd-linear`. */
export function estimatedTextureDepth(meanProfileDepth: number): number {
  return 0.2e-3 + 0.8 * meanProfileDepth;
}

/** Estimated texture depth of the later ISO edition, 1.1·MPD, m; it meets the other at MPD 0.67 mm. Source: `iso-13473-1`. */
export function estimatedTextureDepthIso(meanProfileDepth: number): number {
  return 1.1 * meanProfileDepth;
}

/** Texture depth from the outflow time (s), 3.114/t + 0.636 mm, m. Not for acceptance. Source: `astm-e2380`. */
export function outflowTextureDepth(time: number): number {
  return (3.114 / time + 0.636) / 1000;
}

/** Depth of water that open grooves hold besides the texture between them, w·d/spacing, m. Source: `geometry`. */
export function grooveEquivalentDepth(width: number, depth: number, spacing: number): number {
  return (width * depth) / spacing;
}
