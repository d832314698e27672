/**
 * The register of sources: every publication (or admitted lack of one) that a formula, a check or a table of this
 * project leans on. Each entry says not only *what* it is but *how well it was verified*, because a remembered number
 * must never look like a published one. Other modules name a source by its id; `citation` turns it into one line.
 *
 * Documents that were read only in part appear several times, once for each part with its own mark.
 */

/** How well a figure was verified. The words are shown to users as they stand here. */
export type Mark = 'published' | 'published, second hand' | 'derived' | 'from memory' | 'common practice, no source';

/** All marks, the best verified first. */
export const marks: readonly Mark[] = [
  'published',
  'published, second hand',
  'derived',
  'from memory',
  'common practice, no source',
];

/** One entry of the register. `note` says what was and was not read; `address` is the issuing body's own page. */
export interface Source {
  readonly id: string;
  readonly title: string;
  readonly publisher?: string;
  readonly year?: number;
  readonly clause?: string;
  readonly mark: Mark;
  readonly note?: string;
  readonly address?: string;
}

/** A source as one fact cites it: the fact may be verified better or worse than the document as a whole. */
export interface Citation {
  readonly source: SourceId;
  readonly mark?: Mark;
  readonly clause?: string;
}

/**
 * One line naming the publication and how well it is verified, for reports, hovers and findings.
 * @param cited an id, an entry, or an id with the mark and clause of one particular fact
 */
export function citation(cited: SourceId | Source | Citation): string {
  const source = typeof cited === 'string' ? sources[cited] : 'source' in cited ? sources[cited.source] : cited;
  const fact = typeof cited === 'object' && 'source' in cited ? cited : undefined;
  const mark = fact?.mark ?? source.mark;
  if (mark === 'common practice, no source') return sentence(mark, source.id === 'common-practice' ? '' : source.title);
  const clause = fact?.clause ?? source.clause;
  const issued = [source.publisher, source.year].filter(part => part !== undefined).join(', ');
  const reference = source.title + (clause ? `, ${clause}` : '') + (issued ? ` (${issued})` : '');
  return `${reference}: ${howVerified[mark]}`;
}

/** The entry of an id that comes from outside the type system (a library file, a JSON document). */
export function findSource(id: string): Source | undefined {
  return Object.hasOwn(sources, id) ? sources[id as SourceId] : undefined;
}

const howVerified: Readonly<Record<Exclude<Mark, 'common practice, no source'>, string>> = {
  published: 'published, and read in its text',
  'published, second hand': 'published, but read second hand (a reprint, a mirror or a quotation)',
  derived: 'derived from definitions or geometry',
  'from memory': 'from memory, not checked against the document',
};

function sentence(mark: Mark, title: string): string {
  return title ? `${title}: ${mark}` : mark;
}

const register = {
  // What needs no publication
  'common-practice': { title: 'Common practice', mark: 'common practice, no source' },
  'tool-policy': { title: 'A choice made by this tool', mark: 'common practice, no source' },
  definition: { title: 'By definition', mark: 'derived', note: 'exact by definition' },
  geometry: { title: 'Plane geometry', mark: 'derived' },
  mechanics: { title: 'Conservation of mass, momentum and energy', mark: 'derived' },

  // Guide specifications and airport documents
  'ufgs-32-01-11-51': {
    title: 'UFGS-32 01 11.51 Rubber and Paint Removal from Airfield Pavements',
    publisher: 'NAVFAC',
    year: 2006,
    mark: 'published',
    note: 'cover, scope and list of contents read in a copy; the clauses were not',
  },
  'ufgs-32-01-11-52': {
    title: 'UFGS-32 01 11.52 Runway Rubber Removal',
    publisher: 'USACE',
    year: 2008,
    mark: 'published',
    note: 'cover and list of contents read in a copy; the clauses were not',
  },
  'etl-97-17': {
    title: 'ETL 97-17 (Change 1), guide specification for paint and rubber removal',
    publisher: 'HQ AFCESA',
    year: 1997,
    mark: 'published',
    note: 'first part read in a copy: 85 % of the build-up from 100 % of the area',
  },
  'etl-04-10': {
    title: 'ETL 04-10 (Change 1), determining the need for runway rubber removal',
    publisher: 'HQ AFCESA',
    year: 2004,
    mark: 'published',
    note: 'purpose read; its table only as quoted elsewhere',
  },
  'federal-solicitation': {
    title: 'A federal solicitation for runway rubber removal, notice abstract',
    mark: 'published, second hand',
    note: 'process plan, survey of existing conditions, no blasting on porous friction course, trial area, protection of lights',
  },
  'state-solicitation': {
    title: 'A state airports solicitation, notice abstract',
    mark: 'published, second hand',
    note: 'immediate recovery of standing and running wash water',
  },
  'mil-hdbk-1110': {
    title: 'MIL-HDBK-1110 / UFC 3-190-06 Paints and protective coatings, pavement markings',
    publisher: 'US Department of Defense',
    mark: 'published',
    note: 'one page read',
  },
  'ufgs-02761n': {
    title: 'UFGS-02761N Pavement markings, surface preparation',
    publisher: 'NAVFAC',
    mark: 'published',
    note: 'one page read',
  },
  'ufgs-02763a-preparation': {
    title: 'UFGS-02763A Pavement markings, surface preparation and removal equipment',
    publisher: 'USACE',
    mark: 'published',
    note: 'single pages read',
  },
  'ufgs-02763a-weather': {
    title: 'UFGS-02763A Pavement markings, weather limits',
    publisher: 'USACE',
    mark: 'published',
    note: 'single pages read: limits for marking paint, not for rubber removal',
  },
  'air-force-civil-engineer-2003': {
    title: 'Air Force Civil Engineer magazine 12(3), article on rubber removal',
    publisher: 'HQ AFCESA',
    year: 2003,
    mark: 'published, second hand',
  },
  'trade-magazine-2005': {
    title: 'A pressure-cleaning trade magazine, cover story on runway rubber',
    year: 2005,
    mark: 'published, second hand',
  },
  'chemical-method-slides': {
    title: 'A slide set on the chemical method',
    mark: 'published, second hand',
    note: 'low authority',
  },
  'acrp-synthesis-11': {
    title: 'ACRP Synthesis 11, Impact of Airport Rubber Removal Techniques on Runways',
    publisher: 'Transportation Research Board',
    year: 2008,
    mark: 'published',
    note: 'abstract read; the body was not',
  },
  'acrp-synthesis-26': {
    title: 'ACRP Synthesis 26, current airport inspection practices regarding FOD',
    publisher: 'Transportation Research Board',
    year: 2011,
    clause: 'pp. 26-30',
    mark: 'published',
  },

  // Friction: authorities
  'faa-150-5320-12c': {
    title: 'AC 150/5320-12C Measurement, Construction, and Maintenance of Skid-Resistant Airport Pavement Surfaces',
    publisher: 'FAA',
    year: 1997,
    mark: 'published',
    note: 'front matter read; what is cited from the body has entries of its own',
  },
  'faa-12c-friction-levels': {
    title: 'AC 150/5320-12C',
    publisher: 'FAA',
    year: 1997,
    clause: 'Table 3-2, friction level classification',
    mark: 'from memory',
    note: 'some rows were read second hand and carry that mark themselves',
  },
  'faa-12c-frequency': {
    title: 'AC 150/5320-12C',
    publisher: 'FAA',
    year: 1997,
    clause: 'Tables 3-1 and 4-1, frequency of surveys and of rubber removal',
    mark: 'published, second hand',
    note: 'three restatements agree',
  },
  'faa-12c-wide-body': {
    title: 'AC 150/5320-12C',
    publisher: 'FAA',
    year: 1997,
    clause: 'notes to Table 3-1, wide-body share',
    mark: 'from memory',
  },
  'faa-12c-survey-rules': {
    title: 'AC 150/5320-12C',
    publisher: 'FAA',
    year: 1997,
    clause: 'paras 3-20 to 3-22, evaluation over 500 ft and 1,000 ft',
    mark: 'published, second hand',
    note: 'lengths and actions second hand; the clauses on neighbouring segments from memory',
  },
  'faa-12c-survey-runs': {
    title: 'AC 150/5320-12C',
    publisher: 'FAA',
    year: 1997,
    clause: 'survey runs at 40 and 60 mph',
    mark: 'published, second hand',
    note: 'as explained by a state aeronautics office',
  },
  'faa-12c-texture': {
    title: 'AC 150/5320-12C',
    publisher: 'FAA',
    year: 1997,
    clause: 'chapter 3, texture depth',
    mark: 'from memory',
  },
  'faa-12c-grooves': {
    title: 'AC 150/5320-12C',
    publisher: 'FAA',
    year: 1997,
    clause: 'groove acceptance and wear',
    mark: 'from memory',
  },
  'faa-12c-rubber-classes': {
    title: 'AC 150/5320-12C',
    publisher: 'FAA',
    year: 1997,
    clause: 'visual estimation of rubber deposits',
    mark: 'from memory',
    note: 'structure well remembered, single cells less so',
  },
  'faa-12c-removal': {
    title: 'AC 150/5320-12C',
    publisher: 'FAA',
    year: 1997,
    clause: 'chapter 4, methods of removal and cautions',
    mark: 'from memory',
  },
  'faa-150-5320-12d-draft': {
    title: 'Draft AC 150/5320-12D Measurement and Maintenance of Skid-Resistant Airport Pavement Surfaces',
    publisher: 'FAA',
    year: 2016,
    mark: 'published',
    note: 'a draft; page 1 read; whether it was issued is not established',
  },
  'faa-tc-tn12-7': {
    title: 'DOT/FAA/TC-TN12/7, trapezoidal grooves: field performance',
    publisher: 'FAA',
    year: 2012,
    mark: 'published',
  },
  'icao-annex-14-friction': {
    title: 'Annex 14 Volume I, Attachment A',
    publisher: 'ICAO',
    clause: 'section 7, friction characteristics of wet paved runways',
    mark: 'published',
    note: 'paras 7.9-7.10 read: values are absolute, without tolerance, and bound to the device',
  },
  'icao-friction-levels': {
    title: 'Annex 14 Volume I, Attachment A, and Doc 9137 Part 2',
    publisher: 'ICAO',
    clause: 'table of friction levels by device',
    mark: 'from memory',
    note: 'some rows were read second hand and carry that mark themselves',
  },
  'icao-annex-14-texture': {
    title: 'Annex 14 Volume I',
    publisher: 'ICAO',
    clause: 'texture of a new surface, 1.0 mm',
    mark: 'published, second hand',
  },
  'icao-annex-14-evenness': {
    title: 'Annex 14 Volume I, Attachment A',
    publisher: 'ICAO',
    clause: 'paras 5.1 and 5.3, evenness',
    mark: 'published',
  },
  'icao-9137-2-removal': {
    title: 'Doc 9137 Airport Services Manual, Part 2 Pavement Surface Conditions',
    publisher: 'ICAO',
    year: 2002,
    clause: 'chapter 8, removal of rubber',
    mark: 'published, second hand',
    note: 'first half of the chapter read in a copy',
  },
  'icao-9137-2-chemicals': {
    title: 'Doc 9137 Airport Services Manual, Part 2 Pavement Surface Conditions',
    publisher: 'ICAO',
    year: 2002,
    clause: '8.2, chemicals',
    mark: 'from memory',
  },
  'icao-grf': {
    title: 'PANS-Aerodromes, global reporting format: slippery wet',
    publisher: 'ICAO',
    mark: 'published, second hand',
  },
  'caa-cap-683': {
    title: 'CAP 683 The Assessment of Runway Surface Friction Characteristics, 5th edition',
    publisher: 'UK CAA',
    year: 2010,
    clause: 'friction levels and 100 m rolling average',
    mark: 'from memory',
    note: 'front matter read; the 2010 edition corrects a table, so older copies may be wrong',
  },
  'tc-tp-312-friction': {
    title: 'TP 312 Aerodrome Standards',
    publisher: 'Transport Canada',
    clause: '9.4.2.4, corrective action',
    mark: 'published',
    note: 'an older edition; check the edition in force',
    address: 'tc.gc.ca/eng/civilaviation/publications/tp312-chapter9-9-4-939.htm',
  },
  'tc-friction-programme': {
    title: 'Runway friction maintenance programme levels',
    publisher: 'Transport Canada',
    mark: 'from memory',
  },
  'easa-adr-ops-c-010': {
    title: 'ADR.OPS.C.010 with AMC and GM, maintenance of pavements',
    publisher: 'EASA',
    mark: 'from memory',
  },
  'trr-2068': {
    title: 'Transportation Research Record 2068, effect of rubber deposits on runway pavement friction',
    publisher: 'Transportation Research Board',
    year: 2008,
    clause: 'pp. 119-125',
    mark: 'published',
    note: 'abstract read: one concrete runway, 16 months, one device',
  },
  'tyre-mass-loss': {
    title: 'Int. J. Aeronautical and Space Sciences, tyre mass loss per landing',
    year: 2024,
    mark: 'published',
    note: 'introduction read; not all that a tyre loses stays on the runway',
  },

  // Airport operations
  '14-cfr-139-305': {
    title: '14 CFR 139.305 Paved areas',
    publisher: 'FAA',
    clause: '(a)(4)',
    mark: 'published, second hand',
  },
  '14-cfr-139-305-solvent': {
    title: '14 CFR 139.305 Paved areas',
    publisher: 'FAA',
    clause: 'removal of chemical solvent',
    mark: 'from memory',
  },
  '14-cfr-139-327': {
    title: '14 CFR 139.327 Self-inspection program',
    publisher: 'FAA',
    clause: '(c), records 12 and 24 months',
    mark: 'published',
  },
  '14-cfr-139-329': {
    title: '14 CFR 139.329 Pedestrians and ground vehicles',
    publisher: 'FAA',
    mark: 'published',
    note: 'beginning read; the rest from memory',
  },
  '14-cfr-139-339': {
    title: '14 CFR 139.339 Airport condition reporting',
    publisher: 'FAA',
    clause: 'records of reports, 12 months',
    mark: 'published',
  },
  '14-cfr-139-341': {
    title: '14 CFR 139.341 Identifying, marking and lighting construction areas',
    publisher: 'FAA',
    mark: 'from memory',
  },
  'faa-notam-order': {
    title: 'Notices to air missions, FAA order, chapter 5',
    publisher: 'FAA',
    mark: 'published',
    address: 'faa.gov/air_traffic/publications/atpubs/ntm/not0501.html',
  },
  'faa-150-5370-2g': {
    title: 'AC 150/5370-2G Operational Safety on Airports During Construction',
    publisher: 'FAA',
    year: 2017,
    mark: 'published',
    note: 'first part read in a copy; the paragraphs on work areas from memory',
  },
  'faa-150-5210-24a': {
    title: 'AC 150/5210-24A Airport Foreign Object Debris (FOD) Management',
    publisher: 'FAA',
    year: 2024,
    mark: 'published',
    note: 'that it replaced 150/5210-24 was read; its body was not',
  },
  'faa-150-5200-28': {
    title: 'AC 150/5200-28 Notices to Airmen for Airport Operators',
    publisher: 'FAA',
    mark: 'published',
    note: 'cover of a cancelled edition read; a later one is in force',
  },
  'closure-notice-2023': {
    title: 'An operations advisory of a large airport: a 12.5 h closure with 72 h notice',
    year: 2023,
    mark: 'published',
  },
  'self-inspection-items': {
    title: 'Airport self-inspection programmes: items and special inspections',
    mark: 'published, second hand',
  },
  'reopening-inspection': {
    title: 'Reopening a runway after work: no debris, standing water, foam or film; lights and markings sound',
    mark: 'from memory',
  },
  'closure-markings': { title: 'Closed-runway markings, barricades, beacons and flags', mark: 'from memory' },

  // Runway geometry, markings and lights
  'aim-2-3-3': {
    title: 'Aeronautical Information Manual',
    publisher: 'FAA',
    clause: '2-3-3, runway markings',
    mark: 'published',
  },
  'planning-and-design-of-airports': {
    title: 'Planning and Design of Airports, 5th edition',
    clause: 'tables of widths, slopes and markings',
    mark: 'published, second hand',
  },
  'faa-150-5300-13b': {
    title: 'AC 150/5300-13B (Change 1) Airport Design',
    publisher: 'FAA',
    year: 2024,
    mark: 'published, second hand',
    note: 'that it is in force was read at the FAA; slopes second hand',
  },
  'easa-cs-adr-dsn': {
    title: 'CS-ADR-DSN Issue 7',
    publisher: 'EASA',
    year: 2025,
    mark: 'published, second hand',
  },
  'casa-mos-139': {
    title: 'Part 139 Manual of Standards',
    publisher: 'CASA',
    year: 2019,
    mark: 'published, second hand',
  },
  'caa-cap-168': {
    title: 'CAP 168 Licensing of Aerodromes, edition 13',
    publisher: 'UK CAA',
    year: 2025,
    mark: 'published, second hand',
  },

  // Sprayer calibration
  'oklahoma-state-sprayer': {
    title: 'Turf sprayer calibration sheet',
    publisher: 'Oklahoma State University Extension',
    mark: 'published',
    address: 'turf.okstate.edu/FactSheets/sprayer.htm',
  },
  'albany-county-sprayer': {
    title: 'Calibrating your sprayer',
    publisher: 'Albany County Weed and Pest',
    mark: 'published',
  },
  'lsu-sprayer': {
    title: 'Ounces equal gallons, sprayer calibration',
    publisher: 'LSU AgCenter',
    mark: 'published',
    address: 'lsuagcenter.com',
  },
  'ohio-state-fabe-520': {
    title: 'FABE-520 Calibrating boom sprayers',
    publisher: 'Ohio State University Extension',
    year: 2016,
    mark: 'published',
    address: 'ohioline.osu.edu/factsheet/fabe-520',
  },
  'ohio-state-b-817': {
    title: 'Bulletin 817, sprayer calibration',
    publisher: 'Ohio State University Extension',
    year: 2000,
    mark: 'published',
    address: 'ohioline.osu.edu/b817/b817_07.html',
  },
  'clemson-sprayer': {
    title: 'Calibration of sprayers and spreaders',
    publisher: 'Clemson University',
    mark: 'published',
  },
  'one-128-acre-slides': { title: 'Slides on the 1/128 acre method', mark: 'published, second hand' },
  'uf-band-sprayer': {
    title: 'Band sprayer calibration table',
    publisher: 'University of Florida',
    mark: 'published',
  },
  'uf-ifas-wg013': {
    title: 'WG013 Calibration of herbicide applicators',
    publisher: 'UF/IFAS Extension',
    mark: 'published',
    address: 'edis.ifas.ufl.edu/publication/wg013',
  },
  'mesa-county-sprayer': {
    title: 'Stationary calibration method for boom sprayers',
    publisher: 'Mesa County',
    mark: 'published',
  },
  'florida-exam-guide': { title: 'Applicator exam study guide, Florida', mark: 'published, second hand' },
  'alberta-606-1': {
    title: 'Agdex 606-1, sprayer calibration',
    publisher: 'Alberta Agriculture',
    mark: 'published',
  },
  'australian-training-page': {
    title: 'A training page on spray calculations, Australia',
    mark: 'published, second hand',
  },
  'turf-sprayer-manual': { title: "A turf sprayer's manual", clause: 'p. 40', mark: 'published, second hand' },
  'sprayer-manual-metric': { title: 'Sprayer manuals, metric flow formula', mark: 'published, second hand' },
  'sprayer-maker-page': { title: "A sprayer maker's page on flow and pressure", mark: 'published, second hand' },
  'pesticide-safety-text': {
    title: 'A textbook on pesticide safety',
    clause: 'p. 128',
    mark: 'published, second hand',
  },
  'orchard-magazine': { title: "A fruit growers' magazine, calibration steps", mark: 'published, second hand' },
  'retailer-rate-page': { title: "A retailer's page on gallons per acre", mark: 'published, second hand' },
  'tow-sprayer-manual': { title: "A tow sprayer's manual", clause: 'p. 32', mark: 'published, second hand' },
  'turf-supplier-sheet': { title: "A turf supplier's boom sprayer sheet", mark: 'published, second hand' },
  'grdc-spray-manual': {
    title: 'Spray application manual',
    publisher: 'GRDC',
    year: 2025,
    clause: 'module 8.3',
    mark: 'published',
    address: 'grdc.com.au',
  },
  'ncsu-sprayer': {
    title: 'WQWM-152, calibrating sprayers',
    publisher: 'NC State Extension',
    mark: 'published',
  },
  'cornell-sprayer': {
    title: 'Calibration of a boom sprayer',
    publisher: 'Cornell University',
    mark: 'published',
    note: 'prints 60/80 where 60/88 is meant',
  },
  'nebraska-g1756': {
    title: 'NebGuide G1756, sprayer calibration survey',
    publisher: 'University of Nebraska-Lincoln',
    mark: 'published',
  },
  'idaho-worksheet': {
    title: 'Calibration worksheet',
    publisher: 'University of Idaho',
    mark: 'published, second hand',
  },
  'boom-spacing-guide': { title: 'A guide to broadcast boom nozzle spacing', mark: 'published, second hand' },
  'seed-dealer-page': { title: "A seed dealer's page of formulas", mark: 'published, second hand' },
  'iso-16122-2': { title: 'ISO 16122-2 Inspection of sprayers in use', publisher: 'ISO', mark: 'from memory' },

  // Capacity
  'asae-ep496': {
    title: 'ASAE EP496 Agricultural machinery management',
    publisher: 'ASABE',
    mark: 'published, second hand',
    note: 'form of the capacity formula second hand; its constants are exact',
  },
  'asae-d497': {
    title: 'ASAE D497.7 Agricultural machinery management data',
    publisher: 'ASABE',
    year: 2011,
    mark: 'from memory',
    note: 'abstract read; the efficiency table from memory',
  },
  'iowa-pm-696': {
    title: 'PM 696 Estimating field capacity of farm machines',
    publisher: 'Iowa State University Extension',
    year: 2001,
    mark: 'published',
  },
  'field-efficiency-definition': { title: 'Field efficiency, extension text', mark: 'published, second hand' },

  // Evaporation and weather
  'fao-56': {
    title: 'FAO-56 Crop evapotranspiration',
    publisher: 'FAO',
    year: 1998,
    clause: 'eq. 11, saturation vapour pressure',
    mark: 'published',
  },
  'vapour-pressure-manual': { title: 'Manual page of an open radiation package', mark: 'published, second hand' },
  'dew-point-inverse': { title: 'Inverse of FAO-56 eq. 11', mark: 'derived' },
  'menzel-si': { title: 'Menzel equation, SI form (ACI 305R)', mark: 'from memory' },
  'menzel-us': {
    title: 'Menzel equation, US customary form (ACI 305R)',
    mark: 'from memory',
    note: 'that vapour pressure is in psi follows from the SI form',
  },
  'uno-si': {
    title: 'Uno, Plastic Shrinkage Cracking and Evaporation Formulas, SI form',
    publisher: 'ACI Materials Journal 95-M34',
    year: 1998,
    mark: 'published, second hand',
  },
  'uno-us': {
    title: 'Uno, Plastic Shrinkage Cracking and Evaporation Formulas, US customary form',
    publisher: 'ACI Materials Journal 95-M34',
    year: 1998,
    mark: 'from memory',
    note: 'its exact metric form, read second hand, confirms it',
  },
  'uno-metric-exact': { title: 'Exact metric form of the Uno equation', mark: 'published, second hand' },
  'hover-evaporation': {
    title: 'Hover, After Two Hundred Years of Estimating Evaporation, It Is Still a Mystery',
    publisher: 'ACI SP-338',
    year: 2020,
    mark: 'published',
    note: 'abstract read: actual evaporation within about 40 % of the estimate',
  },
  'dunne-combination': {
    title: 'CIVE 445 problem on evaporation, Dunne and Penman equations',
    publisher: 'San Diego State University',
    mark: 'published',
  },
  'concreting-action-level': {
    title: 'Action level of evaporation in concreting, 0.20 lb/ft2/h',
    mark: 'published, second hand',
  },
  'spray-drift-wind': {
    title: 'Evaluate the weather conditions, spray drift',
    publisher: 'Pesticide Environmental Stewardship',
    mark: 'published',
    address: 'pesticidestewardship.org/drift',
  },
  'wac-16-231-340': {
    title: 'WAC 16-231-340, wind limits',
    publisher: 'State of Washington',
    mark: 'published',
    note: 'exempts 50 gal/ac and more, so it would not bind a drench',
  },
  'spray-wind-advice': { title: 'Common advice on wind and spraying', mark: 'published, second hand' },

  // Water
  'gallaway-1971': {
    title: 'Gallaway, Schiller and Rose, water film depth on pavements',
    publisher: 'Texas Transportation Institute',
    year: 1971,
    mark: 'from memory',
    note: 'that the study exists was read; the formula from memory, its two forms agree',
  },
  'rational-method': { title: 'Rational method of peak runoff', mark: 'from memory' },
  'acre-inch': { title: 'An irrigation handbook of conversions', mark: 'published' },
  'shuttle-formula': {
    title: 'Water shuttle formula for tankers, fire-service lesson',
    mark: 'published',
    note: 'its sources disagree whether the distance is one way or the round trip',
  },
  'highway-hydraulics': { title: 'A fire-service series on highway hydraulics', mark: 'published, second hand' },
  'caltrans-18-1-03': {
    title: 'Standard Specifications 18-1.03C, dust control rates',
    publisher: 'Caltrans',
    mark: 'published, second hand',
  },

  // Pumps, nozzles, jets
  'hydraulic-power-pages': { title: 'Engineering reference pages on hydraulic power', mark: 'published, second hand' },
  'nozzle-flow-pages': { title: 'Engineering reference pages on nozzle flow', mark: 'published, second hand' },
  'fire-service-hydraulics': { title: 'Fire-service hydraulics formulas, as quoted', mark: 'published, second hand' },
  'jet-force-page': { title: 'An engineering reference page on jet force', mark: 'published, second hand' },
  'ishikawa-exercise': {
    title: 'Fluid mechanics exercise, jet force',
    publisher: 'National Institute of Technology, Ishikawa',
    mark: 'published',
  },
  'sspc-nace-water-jetting': {
    title: 'SSPC/NACE water cleaning and jetting pressure classes, as reprinted',
    publisher: 'SSPC/NACE',
    mark: 'published, second hand',
    note: 'puts ultra-high pressure above 25,000 psi',
  },
  'sspc-nace-2002-2012': {
    title: 'SSPC/NACE water jetting, editions of 2002 and 2012',
    publisher: 'SSPC/NACE',
    mark: 'from memory',
    note: 'put ultra-high pressure above 30,000 psi',
  },
  'wjta-practice': { title: 'Recommended practices for water jetting', publisher: 'WJTA', mark: 'from memory' },

  // Brooms, sweepers, magnets
  'broom-pattern-guide': {
    title: 'A sweeping trade guide on broom patterns',
    mark: 'published, second hand',
    note: 'contact pattern 2 to 4 in',
  },
  'walk-sweeper-guide': {
    title: 'A guide to adjusting walk-behind and ride-on sweepers',
    mark: 'published, second hand',
    note: 'contact pattern 5 to 11 cm',
  },
  'sweeper-manual': { title: "A sweeper's manual", clause: 'p. 6', mark: 'published, second hand' },
  'gutter-broom-guide': { title: 'A guide to gutter brooms', mark: 'published, second hand' },
  'rotary-broom-article': {
    title: 'A trade article on pickup, push and rotary brooms',
    mark: 'published, second hand',
  },
  'sweeper-tests': { title: 'A public works magazine, tests of street sweepers', mark: 'published, second hand' },
  'broom-practice': { title: 'Airport brooms: speeds, bristles and magnets', mark: 'from memory' },

  // People and environment
  'osha-1910-95': {
    title: '29 CFR 1910.95 Occupational noise exposure',
    publisher: 'OSHA',
    clause: 'Table G-16 and Appendix A',
    mark: 'published, second hand',
  },
  'niosh-noise': {
    title: 'Recommended exposure limit for noise, 85 dBA with 3 dB exchange',
    publisher: 'NIOSH',
    mark: 'published, second hand',
  },
  'osha-1926-56': { title: '29 CFR 1926.56 Illumination', publisher: 'OSHA', mark: 'from memory' },
  'ansi-z358-1': { title: 'ANSI Z358.1 Emergency eyewash and shower equipment', mark: 'from memory' },
  'sds-sections': { title: 'Safety data sheet, 16 fixed sections', mark: 'published, second hand' },
  'water-jetting-injuries': {
    title: 'Safety magazines and guidance notes on water jetting injuries',
    mark: 'published, second hand',
  },
  'maryland-wash-rules': {
    title: 'Vehicle and equipment cleaning at airports',
    publisher: 'Maryland Aviation Administration',
    mark: 'published',
    address: 'marylandaviation.com/tenants/environmental/vehicle-and-equipment-cleaning',
  },
  'epa-sector-s': {
    title: 'EPA-833-F-06-034, industrial stormwater sector S: airports',
    publisher: 'US EPA',
    year: 2006,
    mark: 'published',
  },
  'municipal-sweeping-contract': {
    title: 'A municipal pressure-washing contract: capture 95 %, block drains',
    mark: 'published, second hand',
  },
  'detergent-and-separators': { title: 'Detergents defeat gravity oil separators', mark: 'from memory' },
  'faa-150-5320-15': {
    title: 'AC 150/5320-15 Management of Airport Industrial Waste',
    publisher: 'FAA',
    year: 1991,
    mark: 'published',
    note: 'cover read',
  },

  // Sun
  'hko-twilight': {
    title: 'What is twilight?',
    publisher: 'Hong Kong Observatory',
    mark: 'published',
    address: 'hko.gov.hk',
  },
  'ies-night': {
    title: 'Definition of night',
    publisher: 'IES',
    mark: 'published',
    address: 'ies.org/definitions/night',
  },
  'noaa-solar': { title: 'Solar calculation', publisher: 'NOAA', mark: 'published, second hand' },
  'open-solar-tests': {
    title: 'Test values of open solar calculators',
    mark: 'published, second hand',
    note: 'other programs, themselves checked against NOAA',
  },
  'sunrise-almanac-tests': {
    title: 'Sunrise and twilight test set of an open library, four places in 2013',
    mark: 'published, second hand',
  },

  // Texture
  'astm-e965': { title: 'ASTM E965, volumetric (sand) patch', publisher: 'ASTM', mark: 'from memory' },
  'pavement-analysis-9-4': {
    title: 'Pavement Analysis and Design, 2nd edition',
    year: 2004,
    clause: 'problem 9.4',
    mark: 'published, second hand',
  },
  'sa-tp346': {
    title: 'TP346 Average texture depth by the sand patch method',
    publisher: 'South Australia DPTI',
    year: 2012,
    mark: 'published',
    note: 'only above 0.30 mm',
  },
  'nz-t3': {
    title: 'TNZ T/3 sand circle',
    publisher: 'Transit New Zealand',
    year: 1981,
    mark: 'published',
    note: 'circles under 350 mm, above about 0.45 mm',
  },
  'astm-e1845': { title: 'ASTM E1845, mean profile depth: definitions', publisher: 'ASTM', mark: 'published' },
  'etd-linear': { title: 'Estimated texture depth 0.2 + 0.8 MPD', mark: 'published, second hand' },
  'iso-13473-1': {
    title: 'ISO 13473-1, estimated texture depth 1.1 MPD',
    publisher: 'ISO',
    year: 2019,
    mark: 'from memory',
  },
  'astm-e2380': {
    title: 'Outflow meter (ASTM E2380), relation to texture depth',
    mark: 'from memory',
    note: 'not for acceptance',
  },

  // Units
  'unit-definitions': { title: 'Definitions of the units, in an open units file', mark: 'published, second hand' },
  'engineering-site-units': { title: 'An engineering reference site, unit factors', mark: 'published, second hand' },
  'motor-page': { title: 'A page on hydraulic motor power', mark: 'published, second hand' },
  'public-code': { title: 'A public code file on evaporation', mark: 'published, second hand' },
} as const satisfies Record<string, Omit<Source, 'id'>>;

/** The ids of the register. */
export type SourceId = keyof typeof register;

/** The register itself, by id. */
export const sources: Readonly<Record<SourceId, Source>> = Object.fromEntries(
  Object.entries(register).map(([id, entry]) => [id, { id, ...entry }]),
) as unknown as Record<SourceId, Source>;
