/**
 * The bench: readings in, causes and a plan out, and the sheet to keep. Apart from the main entry because it is larger and a
 * page that only draws a machine does without it.
 */
export { diagnose, diagnosisOf, type Diagnosis, type Cause, type Next } from './diagnosis/index.ts';
export { type CauseChange, type Posterior, posterior } from './diagnosis/posterior.ts';
export { BY_EYE_DEG, type Dimension, type MeasuringUp, measuringUp } from './diagnosis/measuring-up.ts';
export { readReadings } from './diagnosis/readings-document.ts';
export { unitOfMeasure } from './diagnosis/readings-schema.ts';
export { type Measure, type ReadingPlace, type ReadingsDocument, type Sticks, USUAL_SD } from './diagnosis/readings.ts';
export { azimuthFor, type Pointing, type SetPlace, shortSet, standardSet } from './diagnosis/standard-set.ts';
export { isLead } from './plan/place.ts';
export { type Adjustment, type Plan, plan, planFrom } from './plan/plan.ts';
export { benchExamples } from './examples/examples.ts';
export type { Foretold } from './plan/foretell.ts';
export { type ProcedureStep, procedureFor } from './plan/procedure.ts';
export { defaultTargets, readTargets, type Targets } from './plan/targets-document.ts';
export { CAUTIONS, HAND_TESTS, LAST_LOOKS, reportBody, reportHtml } from './report/report.ts';
export { SHEET_STYLE } from './report/sheet-style.ts';
