/**
 * Every check there is, by group. Written by `npm run new:check`; a test fails when a file is missing here.
 */
import type { Check } from './check.ts';
import blockNotClosed from './language/block-not-closed.ts';
import braceMissing from './language/brace-missing.ts';
import bracketNotClosed from './language/bracket-not-closed.ts';
import chainedComparison from './language/chained-comparison.ts';
import checkFailed from './language/check-failed.ts';
import clauseOrder from './language/clause-order.ts';
import clockDigits from './language/clock-digits.ts';
import colonDoubled from './language/colon-doubled.ts';
import commentNotClosed from './language/comment-not-closed.ts';
import curlyQuotes from './language/curly-quotes.ts';
import cyclicLike from './language/cyclic-like.ts';
import cyclicValue from './language/cyclic-value.ts';
import decimalComma from './language/decimal-comma.ts';
import digitsApart from './language/digits-apart.ts';
import duplicateArgument from './language/duplicate-argument.ts';
import duplicateName from './language/duplicate-name.ts';
import duplicateProperty from './language/duplicate-property.ts';
import hiddenCharacter from './language/hidden-character.ts';
import importCyclic from './language/import-cyclic.ts';
import importDuplicate from './language/import-duplicate.ts';
import importMissing from './language/import-missing.ts';
import importNotABroomFile from './language/import-not-a-broom-file.ts';
import importOutside from './language/import-outside.ts';
import importSelf from './language/import-self.ts';
import importUnreadable from './language/import-unreadable.ts';
import minusNeedsBlanks from './language/minus-needs-blanks.ts';
import misplacedBlock from './language/misplaced-block.ts';
import misplacedStatement from './language/misplaced-statement.ts';
import missingArgument from './language/missing-argument.ts';
import missingColon from './language/missing-colon.ts';
import missingCondition from './language/missing-condition.ts';
import missingDigits from './language/missing-digits.ts';
import missingName from './language/missing-name.ts';
import missingOperand from './language/missing-operand.ts';
import missingValue from './language/missing-value.ts';
import nameMissing from './language/name-missing.ts';
import notAHeader from './language/not-a-header.ts';
import notNeedsBrackets from './language/not-needs-brackets.ts';
import operatorAtLineStart from './language/operator-at-line-start.ts';
import quantityTooLate from './language/quantity-too-late.ts';
import reservedWord from './language/reserved-word.ts';
import roleKind from './language/role-kind.ts';
import roleLimit from './language/role-limit.ts';
import roleNotBound from './language/role-not-bound.ts';
import strangeCharacter from './language/strange-character.ts';
import strayBrace from './language/stray-brace.ts';
import strayBracket from './language/stray-bracket.ts';
import strayComma from './language/stray-comma.ts';
import stringNotClosed from './language/string-not-closed.ts';
import tableHeader from './language/table-header.ts';
import tableRow from './language/table-row.ts';
import tooDeeplyNested from './language/too-deeply-nested.ts';
import tooManyProblems from './language/too-many-problems.ts';
import unknownArgument from './language/unknown-argument.ts';
import unknownKind from './language/unknown-kind.ts';
import unknownName from './language/unknown-name.ts';
import unknownProperty from './language/unknown-property.ts';
import unknownQuantity from './language/unknown-quantity.ts';
import unreadableFile from './language/unreadable-file.ts';
import unreadableText from './language/unreadable-text.ts';
import versionMissing from './language/version-missing.ts';
import versionUnknown from './language/version-unknown.ts';
import waiverLapsed from './language/waiver-lapsed.ts';
import waiverNotAllowed from './language/waiver-not-allowed.ts';
import waiverUnknownCheck from './language/waiver-unknown-check.ts';
import waiverWithoutEffect from './language/waiver-without-effect.ts';
import waiverWithoutName from './language/waiver-without-name.ts';
import waiverWithoutReason from './language/waiver-without-reason.ts';
import wrongKind from './language/wrong-kind.ts';
import acceptanceBelowLevel from './limits/acceptance-below-level.ts';
import acceptanceByEye from './limits/acceptance-by-eye.ts';
import acceptanceMissing from './limits/acceptance-missing.ts';
import acceptanceSpeedUnpublished from './limits/acceptance-speed-unpublished.ts';
import acceptanceWithoutDevice from './limits/acceptance-without-device.ts';
import airOutsideLimit from './limits/air-outside-limit.ts';
import conditionSurveyMissing from './limits/condition-survey-missing.ts';
import conditionsMissing from './limits/conditions-missing.ts';
import degreeWithoutArea from './limits/degree-without-area.ts';
import dewForms from './limits/dew-forms.ts';
import drainsOpen from './limits/drains-open.ts';
import emergencyMissing from './limits/emergency-missing.ts';
import escortMissing from './limits/escort-missing.ts';
import exclusionZoneMissing from './limits/exclusion-zone-missing.ts';
import eyewashMissing from './limits/eyewash-missing.ts';
import holdingTooSmall from './limits/holding-too-small.ts';
import interceptorAndDetergent from './limits/interceptor-and-detergent.ts';
import noiseOverShift from './limits/noise-over-shift.ts';
import phOutsideLimit from './limits/ph-outside-limit.ts';
import protectionMissing from './limits/protection-missing.ts';
import rainTooSoon from './limits/rain-too-soon.ts';
import rateOfPaymentMissing from './limits/rate-of-payment-missing.ts';
import recoveryMissing from './limits/recovery-missing.ts';
import requirementFails from './limits/requirement-fails.ts';
import requirementUndecided from './limits/requirement-undecided.ts';
import safetyDataSheetMissing from './limits/safety-data-sheet-missing.ts';
import spillKitMissing from './limits/spill-kit-missing.ts';
import surfaceOutsideLimit from './limits/surface-outside-limit.ts';
import trialMissing from './limits/trial-missing.ts';
import trialOutsideRunway from './limits/trial-outside-runway.ts';
import wasteWaterNowhere from './limits/waste-water-nowhere.ts';
import windLimitMissing from './limits/wind-limit-missing.ts';
import windOutsideLimit from './limits/wind-outside-limit.ts';
import agitateFacesEdge from './method/agitate-faces-edge.ts';
import broomLast from './method/broom-last.ts';
import broomOverlap from './method/broom-overlap.ts';
import coatsTooFew from './method/coats-too-few.ts';
import contactsShort from './method/contacts-short.ts';
import contactsTooFew from './method/contacts-too-few.ts';
import contactsWorstCase from './method/contacts-worst-case.ts';
import degreeMissing from './method/degree-missing.ts';
import drivenOverWet from './method/driven-over-wet.ts';
import dwellLimitsCrossed from './method/dwell-limits-crossed.ts';
import dwellWorstCase from './method/dwell-worst-case.ts';
import familyContradictsSteps from './method/family-contradicts-steps.ts';
import filmDries from './method/film-dries.ts';
import filmDryAtBroom from './method/film-dry-at-broom.ts';
import filmRunsOff from './method/film-runs-off.ts';
import groundMissed from './method/ground-missed.ts';
import jettingOnPorous from './method/jetting-on-porous.ts';
import keepWetTooRare from './method/keep-wet-too-rare.ts';
import magnetMissing from './method/magnet-missing.ts';
import methodNotForPavement from './method/method-not-for-pavement.ts';
import mixLeftOver from './method/mix-left-over.ts';
import mixRunsShort from './method/mix-runs-short.ts';
import nowhereToWash from './method/nowhere-to-wash.ts';
import pavementLimitMissing from './method/pavement-limit-missing.ts';
import pickUpMissing from './method/pick-up-missing.ts';
import preWetMissing from './method/pre-wet-missing.ts';
import preWetStands from './method/pre-wet-stands.ts';
import prepSweepMissing from './method/prep-sweep-missing.ts';
import prepSweepWithLanding from './method/prep-sweep-with-landing.ts';
import pressureAbovePavement from './method/pressure-above-pavement.ts';
import productNotForPavement from './method/product-not-for-pavement.ts';
import rateOutsideProduct from './method/rate-outside-product.ts';
import reopeningInspectionMissing from './method/reopening-inspection-missing.ts';
import rinseAgainstFall from './method/rinse-against-fall.ts';
import rinseFacesCentreline from './method/rinse-faces-centreline.ts';
import rinseIntoSoil from './method/rinse-into-soil.ts';
import rinseInward from './method/rinse-inward.ts';
import rinseMissing from './method/rinse-missing.ts';
import rinsePassesFew from './method/rinse-passes-few.ts';
import soakLeavesNoTime from './method/soak-leaves-no-time.ts';
import soakLimitsCrossed from './method/soak-limits-crossed.ts';
import soakMissing from './method/soak-missing.ts';
import soakOverMaximum from './method/soak-over-maximum.ts';
import soakShort from './method/soak-short.ts';
import soakUnderMinimum from './method/soak-under-minimum.ts';
import standsTooLong from './method/stands-too-long.ts';
import stepsOutOfOrder from './method/steps-out-of-order.ts';
import submittalsMissing from './method/submittals-missing.ts';
import tandemCollides from './method/tandem-collides.ts';
import tankRunsDry from './method/tank-runs-dry.ts';
import turnRoomShort from './method/turn-room-short.ts';
import unusedParameter from './method/unused-parameter.ts';
import washDownMissing from './method/wash-down-missing.ts';
import workAfterInspection from './method/work-after-inspection.ts';
import crossfallUnusual from './place/crossfall-unusual.ts';
import depositBeyondEdge from './place/deposit-beyond-edge.ts';
import depositBeyondEnd from './place/deposit-beyond-end.ts';
import depositNotRemoved from './place/deposit-not-removed.ts';
import depositWithoutArea from './place/deposit-without-area.ts';
import depositsOverlap from './place/deposits-overlap.ts';
import exclusionBackwards from './place/exclusion-backwards.ts';
import exclusionOutsideRunway from './place/exclusion-outside-runway.ts';
import groovesContradictPavement from './place/grooves-contradict-pavement.ts';
import lightsUnprotected from './place/lights-unprotected.ts';
import noWaterPoint from './place/no-water-point.ts';
import runwayEnds from './place/runway-ends.ts';
import runwayWidthUnusual from './place/runway-width-unusual.ts';
import stationEdgesCrossed from './place/station-edges-crossed.ts';
import stationsOutOfOrder from './place/stations-out-of-order.ts';
import textureWorn from './place/texture-worn.ts';
import thresholdsMeet from './place/thresholds-meet.ts';
import boomWidth from './plant/boom-width.ts';
import bristlePattern from './plant/bristle-pattern.ts';
import calibratedWithAnother from './plant/calibrated-with-another.ts';
import calibrationMissing from './plant/calibration-missing.ts';
import calibrationOld from './plant/calibration-old.ts';
import densityMissing from './plant/density-missing.ts';
import fanTooNarrow from './plant/fan-too-narrow.ts';
import flowOutsideSprayer from './plant/flow-outside-sprayer.ts';
import flowOutsideTruck from './plant/flow-outside-truck.ts';
import jetFlowContradictsNozzles from './plant/jet-flow-contradicts-nozzles.ts';
import jetLeastSpeedMissing from './plant/jet-least-speed-missing.ts';
import jetTooSlow from './plant/jet-too-slow.ts';
import magnetAbsent from './plant/magnet-absent.ts';
import magnetPartWidth from './plant/magnet-part-width.ts';
import metalPickUp from './plant/metal-pick-up.ts';
import moreThanFleet from './plant/more-than-fleet.ts';
import noSpareBroom from './plant/no-spare-broom.ts';
import nozzlePointsNotRising from './plant/nozzle-points-not-rising.ts';
import nozzlePointsStray from './plant/nozzle-points-stray.ts';
import pressureClassByEdition from './plant/pressure-class-by-edition.ts';
import pressureClassContradicts from './plant/pressure-class-contradicts.ts';
import pressureOutOfReach from './plant/pressure-out-of-reach.ts';
import pressureOutsideNozzlePoints from './plant/pressure-outside-nozzle-points.ts';
import rotationUnusual from './plant/rotation-unusual.ts';
import speedOutsideCalibration from './plant/speed-outside-calibration.ts';
import speedOutsideWorkingRange from './plant/speed-outside-working-range.ts';
import sprayerNotFlushed from './plant/sprayer-not-flushed.ts';
import frictionImplausible from './record/friction-implausible.ts';
import frictionNotCovered from './record/friction-not-covered.ts';
import frictionNotRestored from './record/friction-not-restored.ts';
import frictionOutOfOrder from './record/friction-out-of-order.ts';
import frictionOutsideRunway from './record/friction-outside-runway.ts';
import frictionSpeedUnpublished from './record/friction-speed-unpublished.ts';
import frictionWaterFilm from './record/friction-water-film.ts';
import logOutsideClosures from './record/log-outside-closures.ts';
import logUnknownNames from './record/log-unknown-names.ts';
import surveyInFuture from './record/survey-in-future.ts';
import surveyOverdue from './record/survey-overdue.ts';
import breaksMissing from './time/breaks-missing.ts';
import clockChangeInClosure from './time/clock-change-in-closure.ts';
import clockChangeSkipsHour from './time/clock-change-skips-hour.ts';
import closureDatesCrossed from './time/closure-dates-crossed.ts';
import closureInPast from './time/closure-in-past.ts';
import closureMissing from './time/closure-missing.ts';
import closureNever from './time/closure-never.ts';
import closureNumberTooLarge from './time/closure-number-too-large.ts';
import closureTooShort from './time/closure-too-short.ts';
import crewOverHours from './time/crew-over-hours.ts';
import handBackOddsLow from './time/hand-back-odds-low.ts';
import handBackShort from './time/hand-back-short.ts';
import holdPointMissing from './time/hold-point-missing.ts';
import holdPointStepUnknown from './time/hold-point-step-unknown.ts';
import jobDoesNotFit from './time/job-does-not-fit.ts';
import noticeMissing from './time/notice-missing.ts';
import noticeTooLate from './time/notice-too-late.ts';
import recallMissing from './time/recall-missing.ts';
import recallOverLimit from './time/recall-over-limit.ts';
import reserveEaten from './time/reserve-eaten.ts';
import restTooLong from './time/rest-too-long.ts';
import scheduleNotProved from './time/schedule-not-proved.ts';
import shiftShorterThanClosure from './time/shift-shorter-than-closure.ts';
import spareNightsMissing from './time/spare-nights-missing.ts';
import timeZoneMissing from './time/time-zone-missing.ts';
import timeZoneUnknown from './time/time-zone-unknown.ts';
import wrongLight from './time/wrong-light.ts';
import missingProperty from './values/missing-property.ts';
import outOfPlace from './values/out-of-place.ts';
import outOfRange from './values/out-of-range.ts';
import rateOfWhat from './values/rate-of-what.ts';
import unitMissing from './values/unit-missing.ts';
import unitNotWanted from './values/unit-not-wanted.ts';
import unknownUnit from './values/unknown-unit.ts';
import unknownWord from './values/unknown-word.ts';
import wrongDimension from './values/wrong-dimension.ts';
import wrongValue from './values/wrong-value.ts';
import closureOfAnotherRunway from './work/closure-of-another-runway.ts';
import countExplodes from './work/count-explodes.ts';
import crewTooSmall from './work/crew-too-small.ts';
import depositRemovedTwice from './work/deposit-removed-twice.ts';
import machineInTwoPlaces from './work/machine-in-two-places.ts';
import noBayFits from './work/no-bay-fits.ts';
import productMissing from './work/product-missing.ts';
import unusedBlock from './work/unused-block.ts';
import unusedImport from './work/unused-import.ts';
import waterOutOfReach from './work/water-out-of-reach.ts';
import workBackwards from './work/work-backwards.ts';
import workLeavesDeposit from './work/work-leaves-deposit.ts';
import workOnTwoEnds from './work/work-on-two-ends.ts';
import worksWaitForEachOther from './work/works-wait-for-each-other.ts';

export const groups = {
  language: [
    blockNotClosed,
    braceMissing,
    bracketNotClosed,
    chainedComparison,
    checkFailed,
    clauseOrder,
    clockDigits,
    colonDoubled,
    commentNotClosed,
    curlyQuotes,
    cyclicLike,
    cyclicValue,
    decimalComma,
    digitsApart,
    duplicateArgument,
    duplicateName,
    duplicateProperty,
    hiddenCharacter,
    importCyclic,
    importDuplicate,
    importMissing,
    importNotABroomFile,
    importOutside,
    importSelf,
    importUnreadable,
    minusNeedsBlanks,
    misplacedBlock,
    misplacedStatement,
    missingArgument,
    missingColon,
    missingCondition,
    missingDigits,
    missingName,
    missingOperand,
    missingValue,
    nameMissing,
    notAHeader,
    notNeedsBrackets,
    operatorAtLineStart,
    quantityTooLate,
    reservedWord,
    roleKind,
    roleLimit,
    roleNotBound,
    strangeCharacter,
    strayBrace,
    strayBracket,
    strayComma,
    stringNotClosed,
    tableHeader,
    tableRow,
    tooDeeplyNested,
    tooManyProblems,
    unknownArgument,
    unknownKind,
    unknownName,
    unknownProperty,
    unknownQuantity,
    unreadableFile,
    unreadableText,
    versionMissing,
    versionUnknown,
    waiverLapsed,
    waiverNotAllowed,
    waiverUnknownCheck,
    waiverWithoutEffect,
    waiverWithoutName,
    waiverWithoutReason,
    wrongKind,
  ],
  limits: [
    acceptanceBelowLevel,
    acceptanceByEye,
    acceptanceMissing,
    acceptanceSpeedUnpublished,
    acceptanceWithoutDevice,
    airOutsideLimit,
    conditionSurveyMissing,
    conditionsMissing,
    degreeWithoutArea,
    dewForms,
    drainsOpen,
    emergencyMissing,
    escortMissing,
    exclusionZoneMissing,
    eyewashMissing,
    holdingTooSmall,
    interceptorAndDetergent,
    noiseOverShift,
    phOutsideLimit,
    protectionMissing,
    rainTooSoon,
    rateOfPaymentMissing,
    recoveryMissing,
    requirementFails,
    requirementUndecided,
    safetyDataSheetMissing,
    spillKitMissing,
    surfaceOutsideLimit,
    trialMissing,
    trialOutsideRunway,
    wasteWaterNowhere,
    windLimitMissing,
    windOutsideLimit,
  ],
  method: [
    agitateFacesEdge,
    broomLast,
    broomOverlap,
    coatsTooFew,
    contactsShort,
    contactsTooFew,
    contactsWorstCase,
    degreeMissing,
    drivenOverWet,
    dwellLimitsCrossed,
    dwellWorstCase,
    familyContradictsSteps,
    filmDries,
    filmDryAtBroom,
    filmRunsOff,
    groundMissed,
    jettingOnPorous,
    keepWetTooRare,
    magnetMissing,
    methodNotForPavement,
    mixLeftOver,
    mixRunsShort,
    nowhereToWash,
    pavementLimitMissing,
    pickUpMissing,
    preWetMissing,
    preWetStands,
    prepSweepMissing,
    prepSweepWithLanding,
    pressureAbovePavement,
    productNotForPavement,
    rateOutsideProduct,
    reopeningInspectionMissing,
    rinseAgainstFall,
    rinseFacesCentreline,
    rinseIntoSoil,
    rinseInward,
    rinseMissing,
    rinsePassesFew,
    soakLeavesNoTime,
    soakLimitsCrossed,
    soakMissing,
    soakOverMaximum,
    soakShort,
    soakUnderMinimum,
    standsTooLong,
    stepsOutOfOrder,
    submittalsMissing,
    tandemCollides,
    tankRunsDry,
    turnRoomShort,
    unusedParameter,
    washDownMissing,
    workAfterInspection,
  ],
  place: [
    crossfallUnusual,
    depositBeyondEdge,
    depositBeyondEnd,
    depositNotRemoved,
    depositWithoutArea,
    depositsOverlap,
    exclusionBackwards,
    exclusionOutsideRunway,
    groovesContradictPavement,
    lightsUnprotected,
    noWaterPoint,
    runwayEnds,
    runwayWidthUnusual,
    stationEdgesCrossed,
    stationsOutOfOrder,
    textureWorn,
    thresholdsMeet,
  ],
  plant: [
    boomWidth,
    bristlePattern,
    calibratedWithAnother,
    calibrationMissing,
    calibrationOld,
    densityMissing,
    fanTooNarrow,
    flowOutsideSprayer,
    flowOutsideTruck,
    jetFlowContradictsNozzles,
    jetLeastSpeedMissing,
    jetTooSlow,
    magnetAbsent,
    magnetPartWidth,
    metalPickUp,
    moreThanFleet,
    noSpareBroom,
    nozzlePointsNotRising,
    nozzlePointsStray,
    pressureClassByEdition,
    pressureClassContradicts,
    pressureOutOfReach,
    pressureOutsideNozzlePoints,
    rotationUnusual,
    speedOutsideCalibration,
    speedOutsideWorkingRange,
    sprayerNotFlushed,
  ],
  record: [
    frictionImplausible,
    frictionNotCovered,
    frictionNotRestored,
    frictionOutOfOrder,
    frictionOutsideRunway,
    frictionSpeedUnpublished,
    frictionWaterFilm,
    logOutsideClosures,
    logUnknownNames,
    surveyInFuture,
    surveyOverdue,
  ],
  time: [
    breaksMissing,
    clockChangeInClosure,
    clockChangeSkipsHour,
    closureDatesCrossed,
    closureInPast,
    closureMissing,
    closureNever,
    closureNumberTooLarge,
    closureTooShort,
    crewOverHours,
    handBackOddsLow,
    handBackShort,
    holdPointMissing,
    holdPointStepUnknown,
    jobDoesNotFit,
    noticeMissing,
    noticeTooLate,
    recallMissing,
    recallOverLimit,
    reserveEaten,
    restTooLong,
    scheduleNotProved,
    shiftShorterThanClosure,
    spareNightsMissing,
    timeZoneMissing,
    timeZoneUnknown,
    wrongLight,
  ],
  values: [
    missingProperty,
    outOfPlace,
    outOfRange,
    rateOfWhat,
    unitMissing,
    unitNotWanted,
    unknownUnit,
    unknownWord,
    wrongDimension,
    wrongValue,
  ],
  work: [
    closureOfAnotherRunway,
    countExplodes,
    crewTooSmall,
    depositRemovedTwice,
    machineInTwoPlaces,
    noBayFits,
    productMissing,
    unusedBlock,
    unusedImport,
    waterOutOfReach,
    workBackwards,
    workLeavesDeposit,
    workOnTwoEnds,
    worksWaitForEachOther,
  ],
} as const satisfies Readonly<Record<string, readonly Check[]>>;

export type CheckGroup = keyof typeof groups;

export const all: readonly Check[] = Object.values(groups).flat();

const groupByCode: ReadonlyMap<string, CheckGroup> = new Map(
  (Object.keys(groups) as CheckGroup[]).flatMap(group => groups[group].map(check => [check.code, group] as const)),
);

/** The group of a check, which is the folder of its file. */
export function groupOf(code: string): CheckGroup | undefined {
  return groupByCode.get(code);
}
