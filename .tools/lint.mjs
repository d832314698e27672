// Writes the lint rules that hold the direction of imports into biome.json, from the table in order.mjs.
import { readFileSync, writeFileSync } from 'node:fs';
import { FOREIGN_TO_LANGUAGE, PARTS, STAGES } from './order.mjs';

const path = new URL('../biome.json', import.meta.url);

/** One override a folder: a later one would replace an earlier one's patterns, so none overlap. */
export function importRules() {
  const later = (list, one) => list.slice(list.indexOf(one) + 1);
  const outer = part => later(PARTS, part).map(name => `**/${name}/**`);
  return [
    ...STAGES.map(stage =>
      rule(`language/${stage}/**`, [
        {
          group: FOREIGN_TO_LANGUAGE,
          message: 'language/ runs anywhere: no editor protocol, no platform of its own.',
        },
        {
          // Only paths that leave the folder: a folder of a stage may have a later stage's name (checks/schedule).
          group: [
            ...later(STAGES, stage).flatMap(name => [`../${name}/**`, `../../${name}/**`, `../../../${name}/**`]),
            ...outer('language'),
          ],
          message: `Imports point one way: language/${stage} must not know what comes after it (.tools/order.mjs).`,
        },
      ]),
    ),
    rule('server/**', [{ group: outer('server'), message: 'Imports point one way: extension → server → language.' }]),
  ];
}

function rule(include, patterns) {
  return {
    includes: [include],
    linter: { rules: { style: { noRestrictedImports: { level: 'error', options: { patterns } } } } },
  };
}

if (process.argv[1] === new URL(import.meta.url).pathname) {
  const settings = JSON.parse(readFileSync(path, 'utf8'));
  const own = (settings.overrides ?? []).filter(each => !each.linter?.rules?.style?.noRestrictedImports);
  writeFileSync(path, `${JSON.stringify({ ...settings, overrides: [...own, ...importRules()] }, null, 2)}\n`);
}
