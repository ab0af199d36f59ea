/** The steps of the method in the order of the work; a step's screen is in the folder of its name. */
export const STEP_NAMES = [
  'chassis', 'loads', 'squat', 'curve', 'airflow', 'camera', 'load', 'decide', 'track', 'drag', 'report',
] as const
export type StepName = (typeof STEP_NAMES)[number]
