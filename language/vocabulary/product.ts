import { blockKind, phrase, quantity, range, text, textList, wordList, words } from './define.ts';
import { pavements } from './runway.ts';

export const product = blockKind({
  kind: 'product',
  doc: "The removal product, as its data sheets describe it. The safety data sheet and the maker's instructions govern.",
  group: 'plant',
  properties: {
    class: text('Chemical class in general terms.', { example: '"alkaline detergent"' }),
    safetyDataSheet: text('Reference and date of the safety data sheet.', { required: true }),
    dilution: phrase('dilution', 'How the product is diluted for use.', { required: true }),
    rate: range('application rate', 'Rates per area that the product is meant for, of mix.'),
    dwellLeast: quantity('time', 'Shortest time the product has to stand before it is worked.', {
      required: true,
      least: '1 min',
      most: '12 h',
    }),
    dwellMost: quantity('time', 'Longest time the product may stand on the pavement.', {
      required: true,
      least: '1 min',
      most: '24 h',
    }),
    air: range('temperature', 'Air temperatures at which the product may be used.', { example: '5 to 35 °C' }),
    surface: range('temperature', 'Pavement temperatures at which the product may be used.', { example: '5 to 45 °C' }),
    density: quantity('density', 'Density of the mix as sprayed; nozzle tables are for water.', {
      least: '600 kg/m3',
      most: '2000 kg/m3',
      example: '1040 kg/m3',
    }),
    ph: quantity('number', 'pH of the mix.', { least: '0', most: '14' }),
    suits: wordList(pavements, 'Surfaces the maker releases it for.'),
    harms: textList('What it may harm: sealants, markings, plants, water.'),
    cautions: textList('Cautions from the data sheet that crews have to know.'),
    protection: textList('Personal protective equipment from section 8 of the safety data sheet.'),
    waste: text('Disposal by section 13 of the safety data sheet.'),
    rinse: words(['none', 'clear water', 'neutralise'], 'What has to follow it.', { default: 'clear water' }),
    price: quantity('money per volume', 'Price of the undiluted product.'),
  },
});
