/** The frame of a runway belongs to the job; it is passed on here for the topics of this stage. */
export { betweenThresholds, type Frame, frameOf, inFrame, stationsOf } from '../job/frame.ts';
