/** Quantities of single machines, whatever job they are in. */
import * as application from '../formulas/application.ts';
import * as brooms from '../formulas/brooms.ts';
import * as jets from '../formulas/jets.ts';
import type { Broom, Jet, Sprayer } from '../job/job.ts';
import { broomSwept } from './coverage.ts';
import { type Context, leaf, partOf, type Quantity, quantity } from './quantity.ts';

export function sprayerQuantities(ctx: Context, block: Sprayer): readonly Quantity[] {
  const path = ctx.nameOf(block);
  const owner = { path, block };
  const results: Quantity[] = [];
  if (block.nozzles && block.spacing) {
    results.push(
      quantity({
        path: `${path}.nozzlesTimesSpacing`,
        label: `boom width of ${path} by its nozzles`,
        symbol: 'b',
        kind: 'length',
        formula: 'b = n · d',
        inputs: [leaf(owner, 'nozzles', 'n'), leaf(owner, 'spacing', 'd')],
        compute: (n, spacing) => application.boomWidth(n!, spacing!),
        source: 'grdc-spray-manual',
        place: block.heading,
      }),
    );
  }
  if (block.fan && block.height) {
    const width = quantity({
      path: `${path}.fanWidth`,
      label: `width of one fan of ${path} on the pavement`,
      symbol: 'f',
      kind: 'length',
      formula: 'f = 2 · h · tan(β / 2)',
      inputs: [leaf(owner, 'height', 'h'), leaf(owner, 'fan', 'β')],
      compute: (height, fan) => application.fanWidth(height!, fan! * 2 * Math.PI),
      source: 'geometry',
      place: block.heading,
    });
    results.push(width);
    if (block.spacing) {
      results.push(
        quantity({
          path: `${path}.fanOverlap`,
          label: `overlap of the fans of ${path}, as a share of the spacing`,
          symbol: 'k',
          kind: 'share',
          formula: 'k = (f − d) / d',
          inputs: [width, leaf(owner, 'spacing', 'd')],
          compute: (fan, spacing) => application.fanOverlap(fan!, spacing!),
          source: 'boom-spacing-guide',
          place: block.heading,
        }),
      );
    }
  }
  return results;
}

export function broomQuantities(ctx: Context, block: Broom): readonly Quantity[] {
  const path = ctx.nameOf(block);
  const owner = { path, block };
  if (!block.diameter || !block.rotation) return [broomSwept(ctx, owner)];
  return [
    broomSwept(ctx, owner),
    quantity({
      path: `${path}.tipSpeed`,
      label: `speed of the bristle tips of ${path}`,
      symbol: 'v_t',
      kind: 'speed',
      formula: 'v_t = π · D · n',
      inputs: [leaf(owner, 'diameter', 'D'), leaf(owner, 'rotation', 'n')],
      compute: (diameter, rotation) => brooms.tipSpeed(diameter!, rotation!),
      source: 'geometry',
      place: block.heading,
    }),
  ];
}

/** Power at the shaft that the unit needs at its greatest pressure and flow. */
export function jetQuantities(ctx: Context, block: Jet): readonly Quantity[] {
  const path = ctx.nameOf(block);
  if (block.pressure?.value.most === undefined || block.flow?.value.most === undefined) return [];
  const most = (value: { most?: number | undefined }): number | undefined => value.most;
  return [
    quantity({
      path: `${path}.power`,
      label: `greatest power at the pump shaft of ${path}`,
      symbol: 'P_s',
      kind: 'power',
      formula: 'P_s = Q · p / η',
      inputs: [
        partOf(block.flow, most, {
          path: `${path}.flow`,
          label: `greatest flow of ${path}`,
          symbol: 'Q',
          kind: 'flow',
        }),
        partOf(block.pressure, most, {
          path: `${path}.pressure`,
          label: `greatest pressure of ${path}`,
          symbol: 'p',
          kind: 'pressure',
        }),
        leaf({ path, block }, 'efficiency', 'η'),
      ],
      compute: (flow, pressure, efficiency) => jets.shaftPower(flow!, pressure!, efficiency!),
      source: 'hydraulic-power-pages',
      place: block.heading,
    }),
  ];
}
